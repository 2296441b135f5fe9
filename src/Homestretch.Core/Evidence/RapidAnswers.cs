namespace Homestretch.Core.Evidence;

/// <summary>Answers given too fast for the item to have been read: in less than a tenth of the usual time, and never more than ten seconds
/// (Wise &amp; Ma 2012, the normative threshold at 10 %).</summary>
public static class RapidAnswers
{
    /// <summary>Share of the mean time below which an answer is rapid.</summary>
    public const double ThresholdShare = 0.1;

    /// <summary>No answer that took this many seconds is rapid.</summary>
    public const double MostSeconds = 10;

    /// <summary>With fewer times the usual time is not known.</summary>
    public const int FewestTimes = 5;

    /// <summary>Seconds below which an answer is rapid; null where too few times are known.</summary>
    /// <param name="seconds">Times of answers to the same item or, where there is one person only, of that person; above zero.</param>
    public static double? Threshold(IReadOnlyCollection<double> seconds)
    {
        ArgumentNullException.ThrowIfNull(seconds);
        return seconds.Count < FewestTimes ? null : Math.Min(MostSeconds, ThresholdShare * seconds.Average());
    }
}
