using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>How much easier one test is than another for the same people, or why that cannot be told.</summary>
/// <param name="Difference">The difference; null where it is refused.</param>
/// <param name="Refusal">Why there is none, as a sentence; null where there is one.</param>
public sealed record FormEstimate(FormDifference? Difference, string? Refusal)
{
    /// <summary>Tests have to share topics that carry this share of the exam's items (an assumption): with less in common the difference would be one of content.</summary>
    public const double LeastCommon = 0.9;

    // Nearer to guessing, or to everything right, a share says next to nothing of ability.
    private const double Edge = 0.02;

    /// <summary>Estimates the difference.</summary>
    /// <param name="exam">The exam: its topics are weighted as it weights them, on both tests.</param>
    /// <param name="both">People who took both.</param>
    /// <param name="secondIsExam">Whether the second test is the exam as sat before. The exam to come is one more of its forms then, and their usual spread is part of what is not known.</param>
    /// <param name="assumptions">The model's assumptions; the documented defaults when null.</param>
    /// <remarks>Scores averaged over people are flatter in ability than one person's: each average is taken to the ability at which people of the assumed spread reach it
    /// (logistic-normal approximation, the factor 16 sqrt(3) / (15 pi) of Johnson &amp; Kotz 1970). The standard error is the delta method's, with the scores' covariance: the same people took both.</remarks>
    public static FormEstimate Of(Exam exam, BothTests both, bool secondIsExam, StandingAssumptions? assumptions = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(both);
        assumptions ??= StandingAssumptions.Default;
        int n = both.People.Length;
        if (n < ScorePairs.FewestPersons)
        {
            return Refused($"Only {n} {(n == 1 ? "person" : "people")} took both tests; a difference needs at least {ScorePairs.FewestPersons}.");
        }

        Dictionary<string, ObservedShare>[] first = [.. both.People.Select(p => ByTopic(p.First))];
        Dictionary<string, ObservedShare>[] second = [.. both.People.Select(p => ByTopic(p.Second))];
        ExamTopic[] common = [.. exam.Topics.Where(t => t.Items > 0 && first.All(p => p.ContainsKey(t.Name)) && second.All(p => p.ContainsKey(t.Name)))];
        int items = common.Sum(t => t.Items);
        if (items < LeastCommon * exam.ScoredItems)
        {
            string missing = string.Join(", ", exam.Topics.Where(t => t.Items > 0).Except(common).Select(t => t.Name));
            return Refused($"Not everybody has results on all topics in both tests ({missing} missing), so their difference would be one of content.");
        }

        double guess = common.Sum(t => t.Items * t.Section.GuessChance) / items;
        double Share(Dictionary<string, ObservedShare> person) => common.Sum(t => t.Items * person[t.Name].Share) / items;
        double[] x = Array.ConvertAll(first, Share);
        double[] y = Array.ConvertAll(second, Share);
        double meanX = x.Average();
        double meanY = y.Average();
        double knownX = (meanX - guess) / (1 - guess);
        double knownY = (meanY - guess) / (1 - guess);
        if (Math.Min(knownX, knownY) < Edge || Math.Max(knownX, knownY) > 1 - Edge)
        {
            return Refused("On one of the tests nearly everything was answered correctly, or no more than by guessing, which leaves no difference to see.");
        }

        double variance = (assumptions.AbilitySd * assumptions.AbilitySd) + (assumptions.TopicSd * assumptions.TopicSd);
        double flattening = Math.Sqrt(1 + (CohortPriorEstimator.LogisticToProbit * CohortPriorEstimator.LogisticToProbit * variance));
        double slopeX = flattening / ((1 - guess) * knownX * (1 - knownX));
        double slopeY = flattening / ((1 - guess) * knownY * (1 - knownY));
        double squares = 0;
        for (int i = 0; i < n; i++)
        {
            double moved = (slopeX * (x[i] - meanX)) - (slopeY * (y[i] - meanY));
            squares += moved * moved;
        }

        double error = squares / n / (n - 1);
        double form = secondIsExam ? assumptions.OfficialFormSd * assumptions.OfficialFormSd : 0;
        return new FormEstimate(new FormDifference(flattening * (Logit(knownX) - Logit(knownY)), Math.Sqrt(error + form), n), null);
    }

    private static FormEstimate Refused(string why) => new(null, why);

    private static Dictionary<string, ObservedShare> ByTopic(Attempt attempt) => attempt.Observations
        .GroupBy(o => o.Topic)
        .ToDictionary(g => g.Key, g => ObservedShare.Of(g)!.Value, StringComparer.Ordinal);

    private static double Logit(double p) => Math.Log(p / (1 - p));
}
