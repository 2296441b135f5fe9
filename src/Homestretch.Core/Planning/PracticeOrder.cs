using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning;

/// <summary>The order in which coaches work through topics (common practice, no source).</summary>
/// <remarks>Borderline-heavy, borderline-moderate, weak-heavy, then, if time allows, weak-moderate and borderline-light; each up to a
/// sensible number of hours, then the next; after the last the round begins again, until a pass is as good as certain. Strong topics and light weak topics get only a quick review at the end.</remarks>
public static class PracticeOrder
{
    private const double FewestHours = 1;

    /// <summary>Topics in this order; those that get only a review come last.</summary>
    public static ImmutableArray<int> Rank(CandidateStanding standing)
    {
        ArgumentNullException.ThrowIfNull(standing);
        return [.. Enumerable.Range(0, standing.Topics.Length)
            .OrderBy(t => Place(standing.Topics[t]))
            .ThenByDescending(t => standing.Topics[t].Topic.Items)
            .ThenBy(t => standing.Topics[t].Topic.Name, StringComparer.Ordinal)];
    }

    /// <summary>Whether the topic gets more than a quick review.</summary>
    public static bool IsStudied(TopicStanding topic) => Place(topic) <= 5;

    /// <summary>Shares out equal pieces of study time in this order.</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="learning">For the rate of learning, which says when a topic should be strong.</param>
    /// <param name="passChance">Pass chance after given efforts per topic.</param>
    /// <param name="past">Effort per topic that past study leaves on exam day.</param>
    /// <param name="pieceHours">Hours in one piece.</param>
    /// <param name="pieces">Pieces to share out.</param>
    public static Allocation Allocate(
        CandidateStanding standing, LearningAssumptions learning, Func<double[], double> passChance, double[] past, double pieceHours, int pieces)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(learning);
        ArgumentNullException.ThrowIfNull(passChance);
        double[] breadth = learning.BreadthFactors(standing.Exam);
        ImmutableArray<int> order = Rank(standing);
        int[] studied = [.. order.Where(t => IsStudied(standing.Topics[t]))];
        if (studied.Length == 0)
        {
            // All strong, or only light weak topics left: a coach reviews from the heaviest down.
            studied = [.. order];
        }

        int[] rounds = new int[order.Length];
        foreach (int t in studied)
        {
            rounds[t] = Math.Max(2, (int)Math.Ceiling(SensibleHours(standing, t, learning.RatePerHour * breadth[t]) / pieceHours));
        }

        List<int> sequence = new(pieces);
        while (sequence.Count < pieces)
        {
            foreach (int t in studied)
            {
                sequence.AddRange(Enumerable.Repeat(t, Math.Min(rounds[t], pieces - sequence.Count)));
            }
        }

        int enough = Enough(sequence, passChance, past, [.. breadth.Select(b => pieceHours * b)]);
        return new Allocation([.. sequence.Take(enough)], enough < pieces);
    }

    // A good coach stops when a pass is as good as certain. Each piece only adds, so bisection finds where.
    private static int Enough(List<int> sequence, Func<double[], double> passChance, double[] past, double[] piece)
    {
        double[] effort = new double[past.Length];
        double PassAfter(int pieces)
        {
            past.CopyTo(effort, 0);
            foreach (int t in sequence.Take(pieces))
            {
                effort[t] += piece[t];
            }

            return passChance(effort);
        }

        if (PassAfter(sequence.Count) < Allocator.SurePass)
        {
            return sequence.Count;
        }

        int low = -1;
        int high = sequence.Count;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (PassAfter(middle) < Allocator.SurePass)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        return high;
    }

    private static int Place(TopicStanding topic) => (topic.Level.Band, topic.Topic.WeightClass) switch
    {
        (Band.Borderline, WeightClass.Heavy) => 1,
        (Band.Borderline, WeightClass.Moderate) => 2,
        (Band.Weak, WeightClass.Heavy) => 3,
        (Band.Weak, WeightClass.Moderate) => 4,
        (Band.Borderline, WeightClass.Light) => 5,
        (Band.Strong, _) => 6,
        _ => 7,
    };

    // Until the topic should be strong at the usual rate, within what a coach would spend on a topic of its weight.
    private static double SensibleHours(CandidateStanding standing, int topic, double gainPerHour)
    {
        ResponseCurve curve = standing.Posterior.ExamCurve(topic, standing.Exam.Topics[topic].Name);
        double gap = curve.Ability(standing.Exam.Bands.StrongFrom) - curve.Ability(standing.Topics[topic].Level.Mean);
        double hours = gap / gainPerHour;
        double most = standing.Topics[topic].Topic.WeightClass switch
        {
            WeightClass.Heavy => 4,
            WeightClass.Moderate => 3,
            _ => 2,
        };
        return double.IsNaN(hours) ? FewestHours : Math.Clamp(hours, FewestHours, most);
    }
}
