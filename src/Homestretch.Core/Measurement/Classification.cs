using MathNet.Numerics;

namespace Homestretch.Core.Measurement;

/// <summary>Consistency and accuracy of pass and fail decisions from one sitting.</summary>
/// <remarks>Livingston &amp; Lewis (1995), without their final adjustment to the observed pass rate; Huynh (1976). docs/measurement.md says which
/// choices were made.</remarks>
public static class Classification
{
    /// <summary>With fewer people the third and fourth moment say nothing, and the two-parameter distribution is used.</summary>
    public const int FewestForFourParameters = 100;

    private const int FewestPersons = 10;

    /// <summary>The decisions made at <paramref name="cut"/> correct answers.</summary>
    /// <param name="scores">The answers; people who were not given every item are passed over.</param>
    /// <param name="cut">Correct answers needed, 1 to the number of items.</param>
    /// <param name="reliability">Reliability of the number of correct answers.</param>
    public static ClassificationReport Of(ItemScores scores, int cut, Statistic reliability)
    {
        ArgumentNullException.ThrowIfNull(scores);
        return Of([.. scores.Persons.Where(p => p.Complete).Select(p => p.Correct)], scores.Items.Length, cut, reliability);
    }

    /// <summary>The decisions made at <paramref name="cut"/> correct answers.</summary>
    /// <param name="correct">Correct answers of each person.</param>
    /// <param name="items">Items of the test.</param>
    /// <param name="cut">Correct answers needed, 1 to <paramref name="items"/>.</param>
    /// <param name="reliability">Reliability of the number of correct answers.</param>
    public static ClassificationReport Of(ReadOnlySpan<int> correct, int items, int cut, Statistic reliability)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(cut);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cut, items);
        double[] x = new double[correct.Length];
        for (int i = 0; i < x.Length; i++)
        {
            x[i] = correct[i];
        }

        if (x.Length < FewestPersons)
        {
            return Refused(items, cut, $"Fewer than {FewestPersons} people were given every item.");
        }

        double mean = x.Average();
        double squares = x.Sum(v => (v - mean) * (v - mean));
        (Statistic consistency, Statistic kappa) huynh = Huynh(items, cut, Reliability.Kr21(items, mean, squares / x.Length), mean);
        if (reliability is not { Known: true, Value: { } r })
        {
            return Refused(items, cut, reliability.Refusal ?? "Needs a reliability.") with { HuynhConsistency = huynh.consistency, HuynhKappa = huynh.kappa };
        }

        if (r is <= 0 or >= 1)
        {
            return Refused(items, cut, r <= 0 ? "The score is not reliable at all." : "The score would be free of error, which this model does not allow.")
                with
            { HuynhConsistency = huynh.consistency, HuynhKappa = huynh.kappa };
        }

        double variance = squares / (x.Length - 1);
        int effective = EffectiveItems(mean, variance, items, r);
        TrueScoreBeta? four = x.Length < FewestForFourParameters ? null : FitFour(x, items, effective);
        double share = mean / items;
        TrueScoreBeta? fitted = four ?? TrueScoreBeta.TwoParameters(share, r * variance / ((double)items * items));
        if (fitted is not { } truth)
        {
            return Refused(items, cut, "No true-score distribution fits these scores.") with { HuynhConsistency = huynh.consistency, HuynhKappa = huynh.kappa };
        }

        Agreement agreement = Agree(truth, effective, (double)cut / items);
        return new ClassificationReport(
            cut,
            items,
            Statistic.Of(agreement.TruePass + agreement.TrueFail),
            Statistic.Of(agreement.FalsePass),
            Statistic.Of(agreement.FalseFail),
            Statistic.Of(agreement.BothSame),
            KappaOf(agreement.BothSame, agreement.TruePass + agreement.FalsePass),
            huynh.consistency,
            huynh.kappa,
            effective,
            four is null ? 2 : 4);
    }

    /// <summary>Effective test length (Livingston &amp; Lewis 1995, equation 1), at least 1.</summary>
    /// <param name="mean">Mean number of correct answers.</param>
    /// <param name="variance">Variance of the number of correct answers.</param>
    /// <param name="items">Most correct answers possible; the fewest possible are 0.</param>
    /// <param name="reliability">Above 0, below 1.</param>
    public static int EffectiveItems(double mean, double variance, int items, double reliability)
    {
        double length = ((mean * (items - mean)) - (reliability * variance)) / (variance * (1 - reliability));
        return (int)Math.Clamp(Math.Round(length), 1, 10_000);
    }

    /// <summary>Consistency and kappa of two equivalent tests of <paramref name="items"/> equally hard items (Huynh 1976).</summary>
    /// <param name="items">Items.</param>
    /// <param name="cut">Correct answers needed.</param>
    /// <param name="kr21">Formula 21 of the test.</param>
    /// <param name="mean">Mean number of correct answers.</param>
    public static (Statistic Consistency, Statistic Kappa) Huynh(int items, int cut, Statistic kr21, double mean)
    {
        if (kr21 is not { Known: true, Value: { } r })
        {
            Statistic no = Statistic.Refused(kr21.Refusal ?? "Needs formula 21.");
            return (no, no);
        }

        if (r is <= 0 or >= 1)
        {
            Statistic no = Statistic.Refused("The spread of scores is no larger than chance would make it.");
            return (no, no);
        }

        double alpha = mean * ((1 / r) - 1);
        double beta = (items - mean) * ((1 / r) - 1);

        // Rising factorials over the sum of the shapes: differences of log-beta functions would lose all digits where the shapes are huge.
        double[] right = RisingLogs(alpha, alpha + beta, 2 * items);
        double[] wrong = RisingLogs(beta, alpha + beta, 2 * items);
        double all = RisingLogs(alpha + beta, alpha + beta, 2 * items)[2 * items];
        double failBoth = 0;
        double fail = 0;
        double passBoth = 0;
        for (int a = 0; a <= items; a++)
        {
            double lnA = SpecialFunctions.BinomialLn(items, a);
            for (int b = 0; b <= items; b++)
            {
                double chance = Math.Exp(lnA + SpecialFunctions.BinomialLn(items, b) + right[a + b] + wrong[(2 * items) - a - b] - all);
                fail += a < cut ? chance : 0;
                failBoth += a < cut && b < cut ? chance : 0;
                passBoth += a >= cut && b >= cut ? chance : 0;
            }
        }

        return (Statistic.Of(failBoth + passBoth), KappaOf(failBoth + passBoth, 1 - fail));
    }

    internal static Agreement Agree(TrueScoreBeta truth, int effective, double cutShare)
    {
        // The fewest correct answers on the effective test that reach the mark's share; 0.7 * 60 is a hair above 42 in binary.
        int needed = Math.Min(effective, (int)Math.Ceiling((cutShare * effective) - 1e-9));
        double Pass(double t) => BinomialTail(effective, needed, t);
        double Same(double t)
        {
            double pass = Pass(t);
            return (pass * pass) + ((1 - pass) * (1 - pass));
        }

        double below = truth.Below(cutShare);
        double passBelow = truth.Mean(Pass, 0, cutShare);
        double passAbove = truth.Mean(Pass, cutShare, 1);
        return new Agreement(
            (1 - below) * passAbove,
            below * passBelow,
            below * (1 - passBelow),
            (1 - below) * (1 - passAbove),
            (below * truth.Mean(Same, 0, cutShare)) + ((1 - below) * truth.Mean(Same, cutShare, 1)));
    }

    // Moments of the true share from factorial moments of scores on the scale of the effective test (Hanson 1991).
    private static TrueScoreBeta? FitFour(double[] x, int items, int effective)
    {
        if (effective < 4)
        {
            return null;
        }

        double[] moments = new double[4];
        for (int order = 1; order <= 4; order++)
        {
            double sum = 0;
            foreach (double v in x)
            {
                double scaled = v * effective / items;
                double term = 1;
                for (int j = 0; j < order; j++)
                {
                    term *= (scaled - j) / (effective - j);
                }

                sum += term;
            }

            moments[order - 1] = sum / x.Length;
        }

        double m = moments[0];
        double second = moments[1] - (m * m);
        if (!(second > 0))
        {
            return null;
        }

        double third = moments[2] - (3 * m * moments[1]) + (2 * m * m * m);
        double fourth = moments[3] - (4 * m * moments[2]) + (6 * m * m * moments[1]) - (3 * m * m * m * m);
        return TrueScoreBeta.FourParameters(m, second, third / Math.Pow(second, 1.5), fourth / (second * second));
    }

    // Logarithms of the product of (from + i) / unit over the first so many i.
    private static double[] RisingLogs(double from, double unit, int count)
    {
        double[] logs = new double[count + 1];
        for (int i = 0; i < count; i++)
        {
            logs[i + 1] = logs[i] + Math.Log((from + i) / unit);
        }

        return logs;
    }

    private static double BinomialTail(int n, int from, double p)
        => from <= 0 ? 1 : p <= 0 ? 0 : p >= 1 ? 1 : SpecialFunctions.BetaRegularized(from, n - from + 1, p);

    private static Statistic KappaOf(double same, double pass)
    {
        double chance = (pass * pass) + ((1 - pass) * (1 - pass));
        return 1 - chance < 1e-9
            ? Statistic.Refused("Practically all would get the same decision, so nothing is left to agree on beyond chance.")
            : Statistic.Of((same - chance) / (1 - chance));
    }

    private static ClassificationReport Refused(int items, int cut, string why)
    {
        Statistic no = Statistic.Refused(why);
        return new ClassificationReport(cut, items, no, no, no, no, no, no, no, null, 0);
    }

    /// <summary>Shares of people by true and by observed decision, and of people with the same decision twice.</summary>
    internal readonly record struct Agreement(double TruePass, double FalsePass, double TrueFail, double FalseFail, double BothSame);
}
