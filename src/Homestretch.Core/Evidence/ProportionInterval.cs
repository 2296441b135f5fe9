using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Evidence;

/// <summary>Confidence interval for a proportion, without any prior.</summary>
/// <param name="Low">Lower end, 0 to 1.</param>
/// <param name="High">Upper end, 0 to 1.</param>
public readonly record struct ProportionInterval(double Low, double High)
{
    /// <summary>Wilson's score interval (Wilson 1927; method 3 of Newcombe 1998): close to its stated confidence even for few items.</summary>
    /// <param name="successes">0 to <paramref name="trials"/>.</param>
    /// <param name="trials">One or more.</param>
    /// <param name="confidence">Above 0, below 1.</param>
    public static ProportionInterval Wilson(int successes, int trials, double confidence)
    {
        Check(successes, trials, confidence);
        return WilsonOfShare((double)successes / trials, trials, confidence);
    }

    /// <summary>The same where trials do not count in full, because they depend on each other.</summary>
    /// <param name="share">0 to 1.</param>
    /// <param name="trials">How many independent trials would say as much; above 0.</param>
    /// <param name="confidence">Above 0, below 1.</param>
    internal static ProportionInterval WilsonOfShare(double share, double trials, double confidence)
    {
        double z = Normal.InvCDF(0, 1, (1 + confidence) / 2);
        double centre = share + (z * z / (2 * trials));
        double spread = z * Math.Sqrt((share * (1 - share) / trials) + (z * z / (4.0 * trials * trials)));
        double scale = 1 + (z * z / trials);
        return new ProportionInterval(Math.Max(0, (centre - spread) / scale), Math.Min(1, (centre + spread) / scale));
    }

    /// <summary>The exact interval of Clopper and Pearson (1934; method 5 of Newcombe 1998): never below its stated confidence, wider than needed.</summary>
    /// <param name="successes">0 to <paramref name="trials"/>.</param>
    /// <param name="trials">One or more.</param>
    /// <param name="confidence">Above 0, below 1.</param>
    public static ProportionInterval Exact(int successes, int trials, double confidence)
    {
        Check(successes, trials, confidence);
        double tail = (1 - confidence) / 2;
        double low = successes == 0 ? 0 : Beta.InvCDF(successes, trials - successes + 1, tail);
        double high = successes == trials ? 1 : Beta.InvCDF(successes + 1, trials - successes, 1 - tail);
        return new ProportionInterval(low, high);
    }

    private static void Check(int successes, int trials, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(trials);
        ArgumentOutOfRangeException.ThrowIfNegative(successes);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(successes, trials);
        if (!(confidence > 0 && confidence < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "A confidence lies between 0 and 1.");
        }
    }
}
