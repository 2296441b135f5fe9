using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

using MathNet.Numerics.RootFinding;

namespace Homestretch.Core.Forecasting;

/// <summary>Correct answers per topic that together just reach the cut score, found by moving every topic as the same hours of study would.</summary>
internal static class TopicTargets
{
    private const double FurthestMove = 12;
    private const double MoveAccuracy = 1e-8;

    public static int[] Find(Exam exam, AbilityPosterior posterior, IReadOnlyList<double> breadth)
    {
        PassRule rule = new(exam);
        int[] targets = new int[exam.Topics.Length];
        int[][] sections = [.. exam.Sections.Select((_, s) => Enumerable.Range(0, targets.Length).Where(t => exam.Topics[t].SectionIndex == s).ToArray())];
        TopicExpectation[] abilities = [.. exam.Topics.Select((topic, t) => new TopicExpectation(topic, t, posterior))];
        List<int> open = [];
        for (int s = 0; s < sections.Length; s++)
        {
            if (rule.Total == 0)
            {
                Reach(sections[s], Math.Min(rule.SectionMinimum[s], exam.Sections[s].ScoredItems));
            }
            else
            {
                open.Add(s);
            }
        }

        // Under a total the sections share it, but none may fall below its minimum: such a section is fixed there and the others share the rest.
        int left = Math.Min(rule.Total, exam.ScoredItems);
        while (open.Count > 0)
        {
            Reach([.. open.SelectMany(s => sections[s])], left);
            int below = open.FindIndex(s => sections[s].Sum(t => targets[t]) < rule.SectionMinimum[s]);
            if (below < 0)
            {
                break;
            }

            int section = open[below];
            int minimum = Math.Min(rule.SectionMinimum[section], exam.Sections[section].ScoredItems);
            Reach(sections[section], minimum);
            left = Math.Max(0, left - minimum);
            open.RemoveAt(below);
        }

        return targets;

        void Reach(int[] topics, int correct)
        {
            double[] expected = new double[topics.Length];
            double Short(double move)
            {
                for (int j = 0; j < topics.Length; j++)
                {
                    expected[j] = abilities[topics[j]].Expected(move * breadth[topics[j]]);
                }

                return Spans.Sum(expected) - correct;
            }

            // Beyond the furthest move the cut score is out of reach in practice; the apportionment below still shares it out.
            double move = Brent.TryFindRoot(Short, -FurthestMove, FurthestMove, MoveAccuracy, 100, out double root)
                ? root
                : Short(0) < 0 ? FurthestMove : -FurthestMove;
            Short(move);
            int[] counts = Apportionment.LargestRemainder(expected, correct);
            for (int j = 0; j < topics.Length; j++)
            {
                targets[topics[j]] = counts[j];
            }
        }
    }
}
