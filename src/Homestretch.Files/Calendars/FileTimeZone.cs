using System.Collections.Immutable;

using NodaTime;
using NodaTime.TimeZones;

namespace Homestretch.Files.Calendars;

/// <summary>A zone that a calendar file defines itself (VTIMEZONE) and that the zone database does not know.</summary>
internal sealed class FileTimeZone : DateTimeZone
{
    private readonly ImmutableArray<ZoneInterval> intervals;

    private FileTimeZone(string id, ImmutableArray<ZoneInterval> intervals)
        : base(id, intervals.Length == 1, intervals.Min(i => i.WallOffset), intervals.Max(i => i.WallOffset))
    {
        this.intervals = intervals;
    }

    /// <summary>Builds the zone from its clock changes.</summary>
    /// <param name="id">The zone's name in the file.</param>
    /// <param name="changes">Moments and the offsets before and after them; at least one.</param>
    public static FileTimeZone Create(string id, IEnumerable<(Instant At, Offset From, Offset To)> changes)
    {
        List<(Instant At, Offset From, Offset To)> ordered = [.. changes.OrderBy(c => c.At)];
        ImmutableArray<ZoneInterval>.Builder intervals = ImmutableArray.CreateBuilder<ZoneInterval>();
        Instant? start = null;
        Offset offset = ordered[0].From;
        foreach ((Instant at, Offset _, Offset to) in ordered)
        {
            if (to == offset || at == start)
            {
                continue;
            }

            intervals.Add(new ZoneInterval(id, start, at, offset, Offset.Zero));
            start = at;
            offset = to;
        }

        intervals.Add(new ZoneInterval(id, start, null, offset, Offset.Zero));
        return new FileTimeZone(id, intervals.ToImmutable());
    }

    /// <inheritdoc/>
    public override ZoneInterval GetZoneInterval(Instant instant)
    {
        int low = 0;
        int high = intervals.Length - 1;
        while (low < high)
        {
            int middle = (low + high + 1) / 2;
            if (intervals[middle].Start <= instant)
            {
                low = middle;
            }
            else
            {
                high = middle - 1;
            }
        }

        return intervals[low];
    }
}
