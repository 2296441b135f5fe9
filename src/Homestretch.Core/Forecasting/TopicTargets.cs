using System.Numerics.Tensors;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Correct answers per topic that together just reach the cut score, found by moving every topic as the same hours of study would.</summary>
internal static class TopicTargets
{
    private const double FurthestMove = 12;

    public static int[] Find(Exam exam, AbilityPosterior posterior, IReadOnlyList<double> breadth)
    {
        PassRule rule = new(exam);
        int[] targets = new int[exam.Topics.Length];
        int[][] sections = [.. exam.Sections.Select((_, s) => Enumerable.Range(0, targets.Length).Where(t => exam.Topics[t].SectionIndex == s).ToArray())];
        double[][] marginals = [.. exam.Topics.Select((_, t) => posterior.Marginal(t))];
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
            double low = -FurthestMove;
            double high = FurthestMove;
            double[] expected = new double[topics.Length];
            for (int i = 0; i < 60; i++)
            {
                double move = (low + high) / 2;
                for (int j = 0; j < topics.Length; j++)
                {
                    int t = topics[j];
                    expected[j] = exam.Topics[t].Items * MeanChance(marginals[t], posterior, t, move * breadth[t]);
                }

                if (TensorPrimitives.Sum<double>(expected) < correct)
                {
                    low = move;
                }
                else
                {
                    high = move;
                }
            }

            int[] counts = Apportionment.LargestRemainder(expected, correct);
            for (int j = 0; j < topics.Length; j++)
            {
                targets[topics[j]] = counts[j];
            }
        }
    }

    private static double MeanChance(double[] marginal, AbilityPosterior posterior, int topic, double move)
    {
        double sum = 0;
        for (int i = 0; i < marginal.Length; i++)
        {
            if (marginal[i] > 0)
            {
                sum += marginal[i] * posterior.Curves[topic].Chance(posterior.Grid[i] + move);
            }
        }

        return sum;
    }
}
