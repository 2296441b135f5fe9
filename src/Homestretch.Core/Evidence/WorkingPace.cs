namespace Homestretch.Core.Evidence;

/// <summary>How fast a person works through a test: seconds per item are log-normal (van der Linden 2006).</summary>
/// <param name="Items">Items it rests on, <see cref="FewestItems"/> or more.</param>
/// <param name="LogMean">Mean logarithm of the seconds per item; where <paramref name="Relative"/>, of the time per item as a share of what the exam allows.</param>
/// <param name="LogSd">Spread of single items about it, above 0.</param>
/// <param name="Relative">True where no times are known, only how far the person got in a test that is taken to allow as much time per item as the exam.</param>
public sealed record WorkingPace(int Items, double LogMean, double LogSd, bool Relative)
{
    /// <summary>With fewer items nothing is said about pace.</summary>
    public const int FewestItems = 10;

    // A person whose times hardly differ is still not a clock.
    private const double LeastSpread = 0.1;

    // Spread of a person's log times from item to item where no times are known (assumption).
    private const double UsualSpread = 0.5;

    /// <summary>The pace of recorded times; null where there are fewer than <see cref="FewestItems"/>.</summary>
    /// <param name="seconds">Seconds per item, above zero.</param>
    /// <exception cref="ArgumentException">A time is not above zero.</exception>
    public static WorkingPace? FromTimes(IReadOnlyCollection<double> seconds)
    {
        ArgumentNullException.ThrowIfNull(seconds);
        if (seconds.Any(s => !(s > 0) || double.IsInfinity(s)))
        {
            throw new ArgumentException("Seconds are above zero.", nameof(seconds));
        }

        if (seconds.Count < FewestItems)
        {
            return null;
        }

        double[] logs = [.. seconds.Select(s => Math.Log(s))];
        double centre = logs.Average();
        double spread = Math.Sqrt(logs.Sum(l => (l - centre) * (l - centre)) / (logs.Length - 1));
        return new WorkingPace(logs.Length, centre, Math.Max(LeastSpread, spread), false);
    }

    /// <summary>The pace of somebody who ran out of time; null where fewer than <see cref="FewestItems"/> were reached.</summary>
    /// <param name="reached">Items answered or passed over before time ran out.</param>
    /// <param name="given">Items of the test, more than <paramref name="reached"/>.</param>
    public static WorkingPace? FromReach(int reached, int given)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(reached, given);

        // The next item was under way when time ran out: half of it is counted. The mean of a log-normal time is exp(mean + variance / 2).
        return reached < FewestItems
            ? null
            : new WorkingPace(reached, Math.Log(given / (reached + 0.5)) - (UsualSpread * UsualSpread / 2), UsualSpread, true);
    }

    /// <summary>Mean logarithm of the seconds per item where <paramref name="allowed"/> seconds per item are allowed.</summary>
    public double LogSeconds(double allowed) => Relative ? LogMean + Math.Log(allowed) : LogMean;
}
