using System.Collections.Concurrent;

using Homestretch.Web.Candidates;

namespace Homestretch.Web.Exams;

/// <summary>Makes the plans of many people anew: a few at once, the others in the background.</summary>
/// <param name="keeper">Makes plans.</param>
/// <param name="backlog">Makes them in the background.</param>
public sealed class PlansAnew(PlanKeeper keeper, PlanBacklog backlog)
{
    // A small room's plans are there when the page comes back.
    private const int AtOnce = 5;

    private readonly ConcurrentDictionary<string, int> _left = new();

    /// <summary>Plans of an exam's cases that are still to be made.</summary>
    public int Left(string examKey) => _left.GetValueOrDefault(examKey);

    /// <summary>Makes the plans of some cases anew: a few at once, the others later.</summary>
    /// <param name="examKey">Their exam.</param>
    /// <param name="cases">Their keys.</param>
    /// <param name="why">Why, in one sentence for the candidates.</param>
    /// <param name="cancellation">Stops those that are made at once.</param>
    public async Task RefreshAsync(string examKey, IReadOnlyList<string> cases, string why, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(cases);
        foreach (string key in cases.Skip(AtOnce))
        {
            _left.AddOrUpdate(examKey, 1, (_, left) => left + 1);
            backlog.Add(key, stopping => LaterAsync(examKey, key, why, stopping));
        }

        foreach (string key in cases.Take(AtOnce))
        {
            await keeper.RefreshAsync(key, why, cancellation);
        }
    }

    private async Task LaterAsync(string examKey, string caseKey, string why, CancellationToken stopping)
    {
        try
        {
            await keeper.RefreshAsync(caseKey, why, stopping);
        }
        finally
        {
            _left.AddOrUpdate(examKey, 0, (_, left) => Math.Max(0, left - 1));
        }
    }
}
