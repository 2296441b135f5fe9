namespace Homestretch.Core.Measurement.Equating;

/// <summary>Linear equating of a single group: scores that lie equally many standard deviations from their mean are worth the same.</summary>
/// <remarks>Kolen &amp; Brennan, <em>Test Equating, Scaling, and Linking</em>, 2004, section 2.4. The standard error is the delta method's with the sample's own moments, so no
/// normal distribution is taken for granted; for normal scores it becomes theirs (table 7.2): variance = var(Y) (1 - r) (2 + (1 + r) z²) / n, z = (x - mean) / sd.</remarks>
public sealed class LinearEquating
{
    private readonly ScorePairs pairs;
    private readonly double firstMean;
    private readonly double secondMean;
    private readonly double firstVariance;
    private readonly double secondVariance;

    /// <param name="pairs">People who took both tests.</param>
    public LinearEquating(ScorePairs pairs)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        this.pairs = pairs;
        (firstMean, firstVariance) = Moments(pairs.First.AsSpan());
        (secondMean, secondVariance) = Moments(pairs.Second.AsSpan());
    }

    /// <summary>What one correct answer more on the first test is worth on the second.</summary>
    public double Slope => Math.Sqrt(secondVariance / firstVariance);

    /// <summary>What no correct answer on the first test is worth on the second.</summary>
    public double Intercept => secondMean - (Slope * firstMean);

    /// <summary>Mean score on the first test.</summary>
    public double FirstMean => firstMean;

    /// <summary>Mean score on the second test.</summary>
    public double SecondMean => secondMean;

    /// <summary>The score on the second test that <paramref name="score"/> on the first is worth, with its standard error. A straight line knows no ends: it may lie outside 0 to the number of items.</summary>
    public Estimate Equivalent(double score)
    {
        double slope = Slope;
        double away = score - firstMean;
        double squares = 0;
        foreach (ScorePair pair in pairs.Pairs)
        {
            double x = pair.First - firstMean;
            double y = pair.Second - secondMean;

            // What this person's presence moves: the two means, and through the two variances the slope.
            double moved = y - (slope * x) + (away * slope * 0.5 * ((y * y / secondVariance) - (x * x / firstVariance)));
            squares += moved * moved;
        }

        int n = pairs.Pairs.Length;
        return new Estimate(secondMean + (slope * away), Math.Sqrt(squares / n / (n - 1)));
    }

    private static (double Mean, double Variance) Moments(ReadOnlySpan<double> scores)
    {
        double mean = 0;
        foreach (double score in scores)
        {
            mean += score / scores.Length;
        }

        double variance = 0;
        foreach (double score in scores)
        {
            variance += (score - mean) * (score - mean) / scores.Length;
        }

        return (mean, variance);
    }
}
