using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Measurement;

/// <summary>Time per item: will the last item be reached, and where to be on the clock.</summary>
public static class Pace
{
    /// <summary>Share of the time kept back for a last look. Common practice, no source.</summary>
    public const double Reserve = 0.05;

    // Nobody works at quite the same pace on two days: spread of the log pace of exam day about that of the tests (assumption).
    private const double DaySpread = 0.1;

    /// <summary>The forecast from one person's own times.</summary>
    /// <param name="seconds">Seconds per item, above zero.</param>
    /// <param name="items">Items to get through, one or more.</param>
    /// <param name="minutes">Time limit, one or more.</param>
    public static PaceForecast Of(IReadOnlyCollection<double> seconds, int items, int minutes)
    {
        if (WorkingPace.FromTimes(seconds) is { } pace)
        {
            return Of(pace, items, minutes);
        }

        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(items);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(minutes);
        Statistic few = Statistic.Refused($"Only {seconds.Count} times were recorded; at least {WorkingPace.FewestItems} are needed.");
        return new PaceForecast(items, minutes, seconds.Count, few, few, few, few, few.Refusal!);
    }

    /// <summary>The forecast at a person's pace.</summary>
    /// <inheritdoc cref="Of(IReadOnlyCollection{double}, int, int)" path="/param"/>
    public static PaceForecast Of(WorkingPace pace, int items, int minutes)
    {
        double[] chances = ChancesToReach(pace, items, minutes);
        double allowed = minutes * 60.0 / items;
        double median = Math.Exp(pace.LogSeconds(allowed));
        double mean = median * Math.Exp(((pace.LogSd * pace.LogSd) + Doubt(pace)) / 2);
        double reached = Math.Min(chances.Sum(), items);
        return new PaceForecast(
            items,
            minutes,
            pace.Items,
            Statistic.Of(median),
            Statistic.Of(Math.Min(items * mean / 60, 1e6)),
            Statistic.Of(chances[^1]),
            Statistic.Of(reached),
            Remark(chances[^1], reached, items, median, allowed));
    }

    /// <summary>For each item from the first on, the chance that it is answered within the limit.</summary>
    /// <inheritdoc cref="Of(IReadOnlyCollection{double}, int, int)" path="/param"/>
    /// <remarks>Times are log-normal (van der Linden 2006). The sum of several is taken as log-normal with the same mean and variance (Fenton 1960),
    /// given the person's pace. The pace is known only as well as the items seen allow and differs from day to day: log-normal too, so it adds its variance.</remarks>
    public static double[] ChancesToReach(WorkingPace pace, int items, int minutes)
    {
        ArgumentNullException.ThrowIfNull(pace);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(items);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(minutes);
        double limit = Math.Log(minutes * 60.0);
        double centre = pace.LogSeconds(minutes * 60.0 / items) + (pace.LogSd * pace.LogSd / 2);
        double factor = Math.Exp(pace.LogSd * pace.LogSd) - 1;
        double doubt = Doubt(pace);
        double[] chances = new double[items];
        for (int i = 0; i < items; i++)
        {
            double variance = Math.Log(1 + (factor / (i + 1)));
            double mean = centre + Math.Log(i + 1) - (variance / 2);
            double chance = Normal.CDF(mean, Math.Sqrt(variance + doubt), limit);

            // Far out in the tails the approximation could let a later item be likelier.
            chances[i] = i == 0 ? chance : Math.Min(chance, chances[i - 1]);
        }

        return chances;
    }

    /// <summary>Marks for the clock on exam day.</summary>
    /// <param name="section">A section with a time limit.</param>
    /// <param name="every">Items between two marks, one or more.</param>
    /// <returns>Empty where no time limit is published.</returns>
    public static ImmutableArray<PaceMark> Marks(Section section, int every = 10)
    {
        ArgumentNullException.ThrowIfNull(section);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(every);
        if (section.Minutes is not { } minutes)
        {
            return [];
        }

        int items = section.ScoredItems + section.UnscoredItems;
        double usable = minutes * (1 - Reserve);
        ImmutableArray<PaceMark>.Builder marks = ImmutableArray.CreateBuilder<PaceMark>();
        for (int item = Math.Min(every, items); ; item = Math.Min(item + every, items))
        {
            int used = (int)Math.Floor((usable * item / items) + 1e-9);
            marks.Add(new PaceMark(item, used, minutes - used));
            if (item == items)
            {
                return marks.ToImmutable();
            }
        }
    }

    // Variance of the log pace of exam day, given what was seen.
    private static double Doubt(WorkingPace pace) => (pace.LogSd * pace.LogSd / pace.Items) + (DaySpread * DaySpread);

    private static string Remark(double finish, double reached, int items, double median, double allowed)
    {
        string pace = string.Create(CultureInfo.InvariantCulture, $"about {median:0} seconds an item, {allowed:0} are allowed");
        return finish >= 0.9
            ? $"Will most likely reach the last item ({pace})."
            : finish >= 0.5
                ? string.Create(CultureInfo.InvariantCulture, $"May run short of time: {finish * 100:0} % chance of reaching the last item ({pace}).")
                : string.Create(CultureInfo.InvariantCulture, $"Too slow so far: would answer about {reached:0} of {items} items ({pace}).");
    }
}
