using System.Collections.Concurrent;

using Homestretch.Web.Candidates;

namespace Homestretch.Web.Importing;

/// <summary>Makes the first plans of imported cases one after the other, so that nobody waits for all of them. A plan that is still missing when the program stops is made
/// when somebody looks at the case.</summary>
/// <param name="keeper">Makes and keeps plans.</param>
/// <param name="backlog">Does it in the background.</param>
public sealed class FirstPlans(PlanKeeper keeper, PlanBacklog backlog)
{
    private readonly ConcurrentDictionary<string, byte> _waiting = new();
    private readonly ConcurrentDictionary<string, byte> _without = new();

    /// <summary>Asks for the first plans of cases.</summary>
    public void Ask(IEnumerable<string> keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        foreach (string key in keys.Where(k => _waiting.TryAdd(k, 0)))
        {
            backlog.Add(key, stopping => MakeAsync(key, stopping));
        }
    }

    /// <summary>Whether the first plan of a case is still to be made.</summary>
    public bool IsWaiting(string key) => _waiting.ContainsKey(key);

    /// <summary>Whether no first plan could be made of a case.</summary>
    public bool IsWithout(string key) => _without.ContainsKey(key);

    private async Task MakeAsync(string key, CancellationToken stopping)
    {
        bool made = false;
        try
        {
            made = await keeper.FirstAsync(key, stopping);
        }
        finally
        {
            if (!made)
            {
                _without[key] = 0;
            }

            _waiting.TryRemove(key, out _);
        }
    }
}
