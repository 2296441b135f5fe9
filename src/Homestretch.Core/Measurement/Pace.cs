using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Measurement;

/// <summary>Time per item: will the last item be reached, and where to be on the clock.</summary>
public static class Pace
{
    /// <summary>With fewer times nothing is forecast.</summary>
    public const int FewestTimes = 10;

    /// <summary>Share of the time kept back for a last look. Common practice, no source.</summary>
    public const double Reserve = 0.05;

    private const int Nodes = 31;

    // A person whose times hardly differ is still not a clock.
    private const double LeastSpread = 0.1;

    /// <summary>The forecast from one person's own times.</summary>
    /// <param name="seconds">Seconds per item, above zero.</param>
    /// <param name="items">Items to get through, one or more.</param>
    /// <param name="minutes">Time limit, one or more.</param>
    /// <remarks>Times are log-normal (van der Linden 2006). The sum of several is taken as log-normal with the same mean and variance (Fenton 1960),
    /// given the person's pace; the pace itself is known only as well as the times seen allow, and the figures average over that.</remarks>
    public static PaceForecast Of(IReadOnlyList<double> seconds, int items, int minutes)
    {
        ArgumentNullException.ThrowIfNull(seconds);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(items);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(minutes);
        if (seconds.Any(s => !(s > 0) || double.IsInfinity(s)))
        {
            throw new ArgumentException("Seconds are above zero.", nameof(seconds));
        }

        if (seconds.Count < FewestTimes)
        {
            Statistic few = Statistic.Refused($"Only {seconds.Count} times were recorded; at least {FewestTimes} are needed.");
            return new PaceForecast(items, minutes, seconds.Count, few, few, few, few, few.Refusal!);
        }

        double[] logs = [.. seconds.Select(s => Math.Log(s))];
        double centre = logs.Average();
        double spread = Math.Max(LeastSpread, Math.Sqrt(logs.Sum(l => (l - centre) * (l - centre)) / (logs.Length - 1)));
        double doubt = spread / Math.Sqrt(logs.Length);
        double limit = minutes * 60.0;
        double finish = 0;
        double reached = 0;
        double expected = 0;
        double weights = 0;
        for (int node = 0; node < Nodes; node++)
        {
            double z = -5 + (10.0 * node / (Nodes - 1));
            double weight = Math.Exp(-z * z / 2);
            double pace = centre + (doubt * z);
            weights += weight;
            for (int k = 1; k <= items; k++)
            {
                double chance = ChanceWithin(k, pace, spread, limit);
                reached += weight * chance;
                finish += k == items ? weight * chance : 0;
            }

            expected += weight * items * Math.Exp(pace + (spread * spread / 2));
        }

        finish = Math.Clamp(finish / weights, 0, 1);
        reached = Math.Clamp(reached / weights, 0, items);
        double median = Math.Exp(centre);
        return new PaceForecast(
            items,
            minutes,
            seconds.Count,
            Statistic.Of(median),
            Statistic.Of(Math.Min(expected / weights / 60, 1e6)),
            Statistic.Of(finish),
            Statistic.Of(reached),
            Remark(finish, reached, items, median, limit / items));
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

    private static double ChanceWithin(int items, double pace, double spread, double limit)
    {
        double factor = Math.Exp(spread * spread) - 1;
        double variance = Math.Log(1 + (factor / items));
        double mean = pace + (spread * spread / 2) + Math.Log(items) - (variance / 2);
        return Normal.CDF(mean, Math.Sqrt(variance), Math.Log(limit));
    }

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
