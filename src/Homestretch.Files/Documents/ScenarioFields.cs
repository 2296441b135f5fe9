using System.Collections.Immutable;

using Homestretch.Core.Laboratory;

namespace Homestretch.Files.Documents;

/// <summary>One scenario of a simulation.</summary>
/// <param name="Name">Its short name.</param>
/// <param name="Title">Its title.</param>
/// <param name="Differs">How it differs from what the planner assumes.</param>
/// <param name="AsAssumed">Whether it does not differ at all.</param>
/// <param name="FewestDays">Fewest days to the exam.</param>
/// <param name="MostDays">Most days to the exam.</param>
/// <param name="Candidates">Simulated candidates; each meets every policy.</param>
/// <param name="ShareOfOracle">How much of the distance from practice order to oracle the optimised plan covers; null where that was not tried or there is no distance.</param>
/// <param name="Policies">In the order asked for.</param>
/// <param name="Differences">Every two policies on the same candidates.</param>
public sealed record ScenarioFields(
    string Name,
    string Title,
    string Differs,
    bool AsAssumed,
    int FewestDays,
    int MostDays,
    long Candidates,
    double? ShareOfOracle,
    ImmutableArray<PolicyResultFields> Policies,
    ImmutableArray<PairedDifferenceFields> Differences)
{
    internal static ScenarioFields Of(ScenarioResult result)
        => new(
            result.Scenario.Name,
            result.Scenario.Title,
            result.Scenario.Differs,
            result.Scenario.AsAssumed,
            result.Scenario.FewestDays,
            result.Scenario.MostDays,
            result.Candidates,
            result.ShareOfOracle,
            [.. result.Policies.Select(PolicyResultFields.Of)],
            [.. result.Differences.Select(d => new PairedDifferenceFields(Words.Of(d.Policy), Words.Of(d.Against), d.Points, d.StandardError))]);
}
