using System.Collections.Immutable;

namespace Homestretch.Core.Laboratory;

/// <summary>What became of the candidates of one scenario.</summary>
/// <param name="Scenario">The scenario.</param>
/// <param name="Candidates">Candidates.</param>
/// <param name="Policies">In the order asked for.</param>
/// <param name="Differences">The difference of every two policies, the earlier in that order first.</param>
public sealed record ScenarioResult(Scenario Scenario, long Candidates, ImmutableArray<PolicyResult> Policies, ImmutableArray<PairedDifference> Differences)
{
    /// <summary>One policy's result, or null when it was not tried.</summary>
    public PolicyResult? Of(LaboratoryPolicy policy) => Policies.FirstOrDefault(p => p.Policy == policy);

    /// <summary>How much better <paramref name="policy"/> is than <paramref name="against"/>; both were tried.</summary>
    public PairedDifference Difference(LaboratoryPolicy policy, LaboratoryPolicy against)
    {
        foreach (PairedDifference difference in Differences)
        {
            if (difference.Policy == policy && difference.Against == against)
            {
                return difference;
            }

            if (difference.Policy == against && difference.Against == policy)
            {
                return difference with { Policy = policy, Against = against, Points = -difference.Points };
            }
        }

        throw new ArgumentException($"'{policy}' and '{against}' were not both tried.", nameof(policy));
    }

    /// <summary>The best policy a person could follow beside the optimised one; null when none was tried.</summary>
    public LaboratoryPolicy? BestOther => Policies
        .Where(p => p.Policy is not (LaboratoryPolicy.Optimised or LaboratoryPolicy.Oracle))
        .MaxBy(p => p.Passed)?.Policy;

    /// <summary>How much of the distance from the practice order to the oracle the optimised plan covers; null where one was not tried or there is no distance.</summary>
    public double? ShareOfOracle
    {
        get
        {
            if (Of(LaboratoryPolicy.Optimised) is null || Of(LaboratoryPolicy.PracticeOrder) is null || Of(LaboratoryPolicy.Oracle) is null)
            {
                return null;
            }

            double whole = Difference(LaboratoryPolicy.Oracle, LaboratoryPolicy.PracticeOrder).Points;
            return whole <= 0 ? null : Difference(LaboratoryPolicy.Optimised, LaboratoryPolicy.PracticeOrder).Points / whole;
        }
    }

    internal static ScenarioResult Of(Scenario scenario, ImmutableArray<LaboratoryPolicy> policies, Tally tally)
    {
        double n = tally.Candidates;
        ImmutableArray<PairedDifference>.Builder differences = ImmutableArray.CreateBuilder<PairedDifference>();
        for (int p = 0; p < policies.Length; p++)
        {
            for (int q = p + 1; q < policies.Length; q++)
            {
                double only = tally.Passes(p) - tally.PassBoth(p, q);
                double onlyOther = tally.Passes(q) - tally.PassBoth(p, q);
                double mean = (only - onlyOther) / n;
                double variance = ((only + onlyOther) / n) - (mean * mean);
                differences.Add(new PairedDifference(policies[p], policies[q], mean, Math.Sqrt(variance / n)));
            }
        }

        return new ScenarioResult(
            scenario,
            tally.Candidates,
            [.. policies.Select((policy, p) =>
            {
                double rate = tally.Passes(p) / n;
                return new PolicyResult(policy, tally.Passes(p), rate, Math.Sqrt(rate * (1 - rate) / n), tally.MeanHours(p), tally.Check(p, false), tally.Check(p, true));
            })],
            differences.ToImmutable());
    }
}
