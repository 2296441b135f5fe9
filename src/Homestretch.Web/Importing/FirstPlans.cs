using System.Collections.Concurrent;
using System.Threading.Channels;

using Homestretch.Web.Candidates;

namespace Homestretch.Web.Importing;

/// <summary>Makes the first plans of imported cases one after the other, so that nobody waits for all of them. A plan that is still missing when the program stops is made
/// when somebody looks at the case.</summary>
/// <param name="keeper">Makes and keeps plans.</param>
/// <param name="log">Gets what went wrong.</param>
public sealed partial class FirstPlans(PlanKeeper keeper, ILogger<FirstPlans> log) : BackgroundService
{
    private readonly Channel<string> _asked = Channel.CreateUnbounded<string>(new UnboundedChannelOptions { SingleReader = true });
    private readonly ConcurrentDictionary<string, byte> _waiting = new();
    private readonly ConcurrentDictionary<string, byte> _without = new();

    /// <summary>Asks for the first plans of cases.</summary>
    public void Ask(IEnumerable<string> keys)
    {
        ArgumentNullException.ThrowIfNull(keys);
        foreach (string key in keys.Where(k => _waiting.TryAdd(k, 0)))
        {
            _asked.Writer.TryWrite(key);
        }
    }

    /// <summary>Whether the first plan of a case is still to be made.</summary>
    public bool IsWaiting(string key) => _waiting.ContainsKey(key);

    /// <summary>Whether no first plan could be made of a case.</summary>
    public bool IsWithout(string key) => _without.ContainsKey(key);

    /// <inheritdoc/>
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await foreach (string key in _asked.Reader.ReadAllAsync(stoppingToken))
        {
            try
            {
                if (!await keeper.FirstAsync(key, stoppingToken))
                {
                    _without[key] = 0;
                }
            }
            catch (Exception e) when (e is not OperationCanceledException)
            {
                // One case must not keep the others from their plans.
                NotPlanned(log, key, e);
                _without[key] = 0;
            }
            finally
            {
                _waiting.TryRemove(key, out _);
            }
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "The first plan of the case {Key} could not be made.")]
    private static partial void NotPlanned(ILogger logger, string key, Exception e);
}
