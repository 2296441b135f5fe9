using MathNet.Numerics.LinearAlgebra;

namespace Homestretch.Core.Measurement;

/// <summary>Persons who were given the same items: how many had each score, and how many got each item right.</summary>
internal sealed class ConditionalGroup(int[] items)
{
    private readonly double[] persons = new double[items.Length + 1];
    private readonly double[] right = new double[items.Length];

    public void Add(ReadOnlySpan<Answer> answers, int count)
    {
        int score = 0;
        foreach (int item in items)
        {
            score += answers[item] == Answer.Right ? 1 : 0;
        }

        // Nothing is learnt from persons who got all or none of their items right.
        if (score == 0 || score == items.Length)
        {
            return;
        }

        persons[score] += count;
        for (int j = 0; j < items.Length; j++)
        {
            right[j] += answers[items[j]] == Answer.Right ? count : 0;
        }
    }

    /// <summary>Conditional log-likelihood; adds its gradient by easiness, and its information, to the given ones.</summary>
    /// <remarks>Given the score r, item j is right with chance p_j S_(j)(r - 1) / S(r), with S the score distribution and S_(j) that without item j;
    /// two items are both right with chance p_i p_j S_(ij)(r - 2) / S(r).</remarks>
    public double Evaluate(ReadOnlySpan<double> easiness, double[] gradient, Matrix<double>? information)
    {
        int size = items.Length;
        double[] chance = new double[size];
        double logLikelihood = 0;
        double logConstant = 0;
        for (int j = 0; j < size; j++)
        {
            double e = easiness[items[j]];
            chance[j] = 1 / (1 + Math.Exp(-e));
            logLikelihood += right[j] * e;
            logConstant += Math.Max(e, 0) + Math.Log(1 + Math.Exp(-Math.Abs(e)));
        }

        double[][] before = Prefixes(chance);
        double[][] after = Suffixes(chance);
        double[] all = before[size];
        for (int r = 1; r < size; r++)
        {
            if (persons[r] > 0)
            {
                logLikelihood -= persons[r] * (logConstant + Math.Log(all[r]));
            }
        }

        double[] without = new double[size];
        double[][] given = new double[size][];
        for (int j = 0; j < size; j++)
        {
            ScoreDistribution.Convolve(before[j], after[j + 1], without);
            given[j] = new double[size + 1];
            double expected = 0;
            for (int r = 1; r < size; r++)
            {
                if (persons[r] > 0)
                {
                    given[j][r] = chance[j] * without[r - 1] / all[r];
                    expected += persons[r] * given[j][r];
                }
            }

            gradient[items[j]] += right[j] - expected;
        }

        if (information is not null)
        {
            AddInformation(chance, before, all, given, information);
        }

        return logLikelihood;
    }

    private void AddInformation(double[] chance, double[][] before, double[] all, double[][] given, Matrix<double> information)
    {
        int size = items.Length;
        double[] weights = new double[size + 1];
        for (int r = 1; r < size; r++)
        {
            weights[r] = persons[r] > 0 ? persons[r] / all[r] : 0;
        }

        double[] rest = new double[size + 1];
        for (int i = 0; i < size; i++)
        {
            double own = 0;
            for (int r = 1; r < size; r++)
            {
                own += persons[r] * given[i][r] * (1 - given[i][r]);
            }

            information[items[i], items[i]] += own;

            // Items after j come in one at a time from behind; those before i and between i and j are put together once per j.
            double[] between = [.. before[i]];
            for (int j = i + 1; j < size; j++)
            {
                Array.Clear(rest);
                between.CopyTo(rest, 0);
                int count = between.Length - 1;
                for (int k = j + 1; k < size; k++)
                {
                    ScoreDistribution.Add(rest, count++, chance[k]);
                }

                double both = 0;
                for (int r = 2; r < size; r++)
                {
                    both += weights[r] * rest[r - 2];
                }

                both *= chance[i] * chance[j];
                double apart = 0;
                for (int r = 1; r < size; r++)
                {
                    apart += persons[r] * given[i][r] * given[j][r];
                }

                information[items[i], items[j]] += both - apart;
                information[items[j], items[i]] += both - apart;
                Array.Resize(ref between, between.Length + 1);
                ScoreDistribution.Add(between, between.Length - 2, chance[j]);
            }
        }
    }

    private static double[][] Prefixes(double[] chance)
    {
        double[][] result = new double[chance.Length + 1][];
        result[0] = [1];
        for (int j = 0; j < chance.Length; j++)
        {
            result[j + 1] = new double[j + 2];
            result[j].CopyTo(result[j + 1], 0);
            ScoreDistribution.Add(result[j + 1], j, chance[j]);
        }

        return result;
    }

    private static double[][] Suffixes(double[] chance)
    {
        double[][] result = new double[chance.Length + 1][];
        result[chance.Length] = [1];
        for (int j = chance.Length - 1; j >= 0; j--)
        {
            int count = chance.Length - 1 - j;
            result[j] = new double[count + 2];
            result[j + 1].CopyTo(result[j], 0);
            ScoreDistribution.Add(result[j], count, chance[j]);
        }

        return result;
    }
}
