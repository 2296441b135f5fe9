using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Files.Calendars;

/// <summary>Gathers intervals inside a horizon and joins those that overlap or touch.</summary>
internal sealed class BusyIntervals(Interval horizon)
{
    private readonly List<(Instant Start, Instant End)> intervals = [];

    /// <summary>Only times in it are kept.</summary>
    public Interval Horizon { get; } = horizon;

    /// <summary>Adds what lies inside the horizon; something without length takes no time.</summary>
    public void Add(Instant start, Instant end)
    {
        Instant from = Instant.Max(start, Horizon.Start);
        Instant to = Instant.Min(end, Horizon.End);
        if (from < to)
        {
            intervals.Add((from, to));
        }
    }

    /// <summary>In time order, disjoint.</summary>
    public ImmutableArray<Interval> Merged()
    {
        ImmutableArray<Interval>.Builder merged = ImmutableArray.CreateBuilder<Interval>();
        intervals.Sort();
        foreach ((Instant start, Instant end) in intervals)
        {
            if (merged.Count > 0 && merged[^1].End >= start)
            {
                merged[^1] = new Interval(merged[^1].Start, Instant.Max(merged[^1].End, end));
            }
            else
            {
                merged.Add(new Interval(start, end));
            }
        }

        return merged.ToImmutable();
    }
}
