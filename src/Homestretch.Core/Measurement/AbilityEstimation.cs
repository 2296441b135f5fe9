using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>Estimates abilities of persons from calibrated items.</summary>
public static class AbilityEstimation
{
    private const double Reach = 8;
    private const double Furthest = 40;

    /// <summary>Expected a posteriori: the posterior mean under a normal prior (Bock &amp; Mislevy 1982), and its standard deviation.</summary>
    /// <param name="curves">The items' curves.</param>
    /// <param name="answers">One answer per item; missing ones say nothing, and with none at all the prior is returned.</param>
    /// <param name="mean">Prior mean.</param>
    /// <param name="sd">Prior standard deviation, above zero.</param>
    public static AbilityEstimate Eap(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers, double mean = 0, double sd = 1)
    {
        CheckLengths(curves, answers);
        if (!(sd > 0) || !double.IsFinite(sd) || !double.IsFinite(mean))
        {
            throw new ArgumentOutOfRangeException(nameof(sd), sd, "A prior needs a finite mean and a standard deviation above zero.");
        }

        // Nodes no further apart than the posterior is wide: its information is at most the prior's plus the test's.
        double information = 1 / (sd * sd);
        for (int j = 0; j < curves.Length; j++)
        {
            information += answers[j] == Answer.Missing ? 0 : curves[j].Discrimination * curves[j].Discrimination / 4;
        }

        double step = Math.Min(0.25 * sd, 0.7 / Math.Sqrt(information));
        int count = (int)Math.Ceiling(2 * Reach * sd / step) + 1;
        double top = double.NegativeInfinity;
        double[] logs = new double[count];
        for (int k = 0; k < count; k++)
        {
            double z = -Reach + (k * step / sd);
            logs[k] = (-0.5 * z * z) + LogLikelihood(curves, answers, mean + (z * sd));
            top = Math.Max(top, logs[k]);
        }

        double whole = 0;
        double first = 0;
        double second = 0;
        for (int k = 0; k < count; k++)
        {
            double z = -Reach + (k * step / sd);
            double weight = Math.Exp(logs[k] - top);
            whole += weight;
            first += weight * z;
            second += weight * z * z;
        }

        double centre = first / whole;
        return new AbilityEstimate(mean + (sd * centre), sd * Math.Sqrt(Math.Max(0, (second / whole) - (centre * centre))));
    }

    /// <summary>Warm's weighted likelihood estimate (Psychometrika 54, 1989): no prior, hardly any bias, and finite also when all answers are right or wrong.</summary>
    /// <param name="curves">The items' curves.</param>
    /// <param name="answers">One answer per item.</param>
    /// <returns>Null when no item was answered, or none that tells abilities apart.</returns>
    public static AbilityEstimate? Wle(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers)
    {
        CheckLengths(curves, answers);

        // The weighted likelihood of the three-parameter model may have several maxima; the highest on a grid is refined.
        double best = double.NaN;
        double bestValue = double.NegativeInfinity;
        for (double theta = -Furthest; theta <= Furthest; theta += Math.Abs(theta) < 8 ? 0.125 : 0.5)
        {
            double information = Information(curves, answers, theta);
            double value = information > 0 ? LogLikelihood(curves, answers, theta) + (0.5 * Math.Log(information)) : double.NegativeInfinity;
            if (value > bestValue)
            {
                bestValue = value;
                best = theta;
            }
        }

        if (double.IsNaN(best))
        {
            return null;
        }

        double low = best - 0.5;
        double high = best + 0.5;
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            if (WeightedScore(curves, answers, middle) > 0)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        double estimate = (low + high) / 2;
        double found = Information(curves, answers, estimate);
        return found > 0 && Math.Abs(estimate) < Furthest ? new AbilityEstimate(estimate, 1 / Math.Sqrt(found)) : null;
    }

    /// <summary>EAP estimates of all persons of a matrix, in their order.</summary>
    /// <param name="calibration">Items of <paramref name="data"/>, calibrated; the prior is its ability distribution.</param>
    /// <param name="data">Answers; items that were left out of the calibration are ignored.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static ImmutableArray<AbilityEstimate> EapOfAll(MarginalCalibration calibration, ResponseMatrix data, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(calibration);
        return OfAll(calibration.Items, data, (curves, answers) => Eap(curves, answers, 0, Math.Max(calibration.AbilitySd, 1e-6)), cancellation);
    }

    /// <summary>WLE estimates of all persons of a matrix, in their order; null where there is none.</summary>
    /// <param name="items">Items of <paramref name="data"/>, calibrated.</param>
    /// <param name="data">Answers; items that are not calibrated are ignored.</param>
    /// <param name="cancellation">Stops the work.</param>
    public static ImmutableArray<AbilityEstimate?> WleOfAll(ImmutableArray<ItemEstimate> items, ResponseMatrix data, CancellationToken cancellation = default)
        => OfAll(items, data, Wle, cancellation);

    private delegate T Estimator<T>(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers);

    private static ImmutableArray<T> OfAll<T>(ImmutableArray<ItemEstimate> items, ResponseMatrix data, Estimator<T> estimator, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        ItemCurve[] curves = [.. items.Select(i => i.Curve)];
        int[] columns = [.. items.Select(i => data.Items.IndexOf(i.Item))];
        if (columns.Contains(-1))
        {
            throw new ArgumentException($"The answers have no item '{items[Array.IndexOf(columns, -1)].Item}'.", nameof(items));
        }

        T[] ofPattern = new T[data.Patterns];
        Parallel.For(
            0,
            data.Patterns,
            new ParallelOptions { CancellationToken = cancellation },
            () => new Answer[columns.Length],
            (pattern, _, answers) =>
            {
                for (int j = 0; j < columns.Length; j++)
                {
                    answers[j] = data.AnswerOf(pattern, columns[j]);
                }

                ofPattern[pattern] = estimator(curves, answers);
                return answers;
            },
            _ => { });
        return [.. Enumerable.Range(0, data.Persons).Select(person => ofPattern[data.PatternOf(person)])];
    }

    private static double LogLikelihood(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers, double theta)
    {
        double sum = 0;
        for (int j = 0; j < curves.Length; j++)
        {
            sum += answers[j] switch
            {
                Answer.Right => curves[j].LogRight(theta),
                Answer.Wrong => curves[j].LogWrong(theta),
                _ => 0,
            };
        }

        return sum;
    }

    private static double Information(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers, double theta)
    {
        double sum = 0;
        for (int j = 0; j < curves.Length; j++)
        {
            sum += answers[j] == Answer.Missing ? 0 : curves[j].Information(theta);
        }

        return sum;
    }

    // Derivative of the log-likelihood plus half that of the log-information: J / (2 I) with J = sum of P' P'' / (P Q) (Warm 1989, eq. 8).
    private static double WeightedScore(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers, double theta)
    {
        double score = 0;
        double information = 0;
        double bias = 0;
        for (int j = 0; j < curves.Length; j++)
        {
            if (answers[j] == Answer.Missing)
            {
                continue;
            }

            (double a, double b, double c) = curves[j];
            double logistic = 1 / (1 + Math.Exp(-a * (theta - b)));
            double chance = c + ((1 - c) * logistic);
            double byChance = a * logistic / chance;
            score += answers[j] == Answer.Right ? (1 - c) * (1 - logistic) * byChance : -a * logistic;
            double own = (1 - c) * a * logistic * (1 - logistic) * byChance;
            information += own;
            bias += own * a * (1 - (2 * logistic));
        }

        return information > 0 ? score + (bias / (2 * information)) : score;
    }

    private static void CheckLengths(ReadOnlySpan<ItemCurve> curves, ReadOnlySpan<Answer> answers)
    {
        if (curves.Length != answers.Length)
        {
            throw new ArgumentException($"{curves.Length} items, but {answers.Length} answers.", nameof(answers));
        }
    }
}
