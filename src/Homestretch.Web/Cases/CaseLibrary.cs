using System.Collections.Concurrent;
using System.Collections.Immutable;

using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.StudyLogs;
using Homestretch.Store;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Cases;

/// <summary>Finds cases by key, demo or uploaded, and keeps what is costly to compute.</summary>
/// <param name="demo">The demo.</param>
/// <param name="store">Uploaded cases.</param>
/// <param name="time">The clock for uploaded cases.</param>
public sealed class CaseLibrary(DemoCases demo, CaseStore store, TimeProvider time)
{
    // Bounds the memory.
    private const int MostKept = 64;

    private readonly ConcurrentDictionary<string, (CaseVersion Version, ReadResult<ReadCase> Read)> _read = new();
    private readonly ConcurrentDictionary<string, PreparedCase> _prepared = new();

    /// <summary>Demo cases in their order.</summary>
    public ImmutableArray<CaseFiles> Demo => demo.All;

    /// <summary>A case whose files have been read, or the problems a newer version finds in them; null where there is no such case.</summary>
    public async Task<ReadResult<ReadCase>?> FindAsync(string key, CancellationToken cancellation)
    {
        // The store is asked every time: the case may have been changed or removed since. The demo never changes.
        CaseFiles? files = demo.Find(key);
        CaseVersion? version = files is null ? await store.VersionAsync(key, cancellation) : default(CaseVersion);
        if (version is not { } current)
        {
            return null;
        }

        if (_read.TryGetValue(key, out (CaseVersion Version, ReadResult<ReadCase> Read) known) && known.Version == current)
        {
            return known.Read;
        }

        files ??= await store.FindAsync(key, cancellation) is { } stored ? CaseFiles.Of(stored) : null;
        if (files is null)
        {
            return null;
        }

        List<FileProblem> problems = [];
        ReadResult<ReadCase> read = CaseReader.Read(files, problems) is { } value
            ? ReadResult<ReadCase>.Ok(value)
            : ReadResult<ReadCase>.Failed(problems.Count > 0 ? problems : [new(key, 1, "A file of this case is missing.")]);

        // Where the case has changed in between, the version is older than what was read, and the next visitor reads anew.
        Keep(_read, key, (current, read));
        return read;
    }

    /// <summary>The moment from which a case is planned: the demo's own, or now, in whole minutes.</summary>
    public ZonedDateTime Now(ReadCase of)
    {
        ArgumentNullException.ThrowIfNull(of);
        return of.PlaysAt is { } at ? of.Free.Zone.AtLeniently(at) : WholeMinute(time.GetUtcNow().ToInstant()).InZone(of.Free.Zone);
    }

    /// <summary>The case with its standing on a day; computed once a day.</summary>
    public PreparedCase Prepare(ReadCase of, LocalDate today)
    {
        ArgumentNullException.ThrowIfNull(of);
        if (_prepared.TryGetValue(of.Key, out PreparedCase? known) && known.Today == today && ReferenceEquals(known.Case, of))
        {
            return known;
        }

        (CandidateStanding standing, StudyReport? study) = of.Person.On(today);
        PreparedCase prepared = new(of, today, of.Person.Basis, standing, study, Busy(of, today));
        Keep(_prepared, of.Key, prepared);
        return prepared;
    }

    private static Instant WholeMinute(Instant now) => Instant.FromUnixTimeSeconds(now.ToUnixTimeSeconds() / 60 * 60);

    private static ImmutableArray<Interval> Busy(ReadCase of, LocalDate today)
    {
        if (of.Busy is not { } file)
        {
            return [];
        }

        DateTimeZone zone = of.Free.Zone;
        Interval horizon = new(
            zone.AtStartOfDay(today).ToInstant(),
            zone.AtStartOfDay(PreparedCase.LastExamDayFrom(today).PlusDays(1)).ToInstant());
        string text = System.Text.Encoding.UTF8.GetString(file.Content.Span).TrimStart('\uFEFF');
        return BusyFile.Parse(file.Name, text, zone, horizon).Value?.Busy
            ?? throw new InvalidOperationException($"The busy calendar of case '{of.Key}' could be read for one horizon and not for another.");
    }

    private static void Keep<T>(ConcurrentDictionary<string, T> shelf, string key, T value)
    {
        if (shelf.Count >= MostKept)
        {
            shelf.Clear();
        }

        shelf[key] = value;
    }
}
