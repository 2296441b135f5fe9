using System.Collections.Immutable;

using Homestretch.Cli.Commands;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;
using Homestretch.Files.Resources;
using Homestretch.Files.StudyLogs;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Cli;

/// <summary>One person, where they stand, and their time until the exam, read from the files a command names.</summary>
/// <param name="Candidate">The person's name.</param>
/// <param name="Attempts">Their attempts.</param>
/// <param name="Standing">Where they stand when study begins.</param>
/// <param name="Basis">The assumptions and calibrated items that the standing rests on.</param>
/// <param name="Study">The study they have done until then; null where no log was given.</param>
/// <param name="Free">Free time.</param>
/// <param name="Busy">Busy times up to the horizon.</param>
/// <param name="From">When study begins.</param>
/// <param name="ExamDay">The day of the exam.</param>
internal sealed record PersonsTime(
    string Candidate,
    ImmutableArray<Attempt> Attempts,
    CandidateStanding Standing,
    StandingBasis Basis,
    StudyReport? Study,
    FreeTime Free,
    ImmutableArray<Interval> Busy,
    ZonedDateTime From,
    LocalDate ExamDay)
{
    /// <summary>The earlier plan; null where none was given.</summary>
    public EarlierPlan? Before { get; private init; }

    /// <summary>What there is to study from; null where no catalogue was given.</summary>
    public ResourceCatalogue? Resources { get; private init; }

    /// <summary>The person's study before it begins anew.</summary>
    public ImmutableArray<StudySession> Sessions { get; private init; } = [];

    /// <summary>Reads everything; problems of all files are told at once.</summary>
    /// <param name="command">The command's name, for the message when something is missing.</param>
    /// <param name="settings">What was typed.</param>
    /// <param name="clock">What time it is.</param>
    /// <param name="horizonDays">Busy times are read for so many days beyond the exam day.</param>
    /// <param name="beforePath">Path of an earlier plan, or null.</param>
    /// <param name="resourcesPath">Path of a catalogue of resources, or null.</param>
    /// <exception cref="UsageException">A needed option is missing or malformed.</exception>
    /// <exception cref="BadInputException">A file has problems.</exception>
    public static PersonsTime Read(string command, CalendarSettings settings, TimeProvider clock, int horizonDays = 0, string? beforePath = null, string? resourcesPath = null)
    {
        Instant now = clock.GetUtcNow().ToInstant();
        string freePath = RequiredFreePath(command, settings);
        LocalDate examDay = MomentText.Date("--exam-day", Given(settings.ExamDay) ?? throw new UsageException($"{command} needs the day of the exam, such as --exam-day 2026-12-16."));
        Func<DateTimeZone, ZonedDateTime> begin = settings.From is { } text ? MomentText.Moment("--from", text) : now.InZone;

        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        StudiedCandidate? candidate = inputs.Candidate(settings, exam);
        FreeTime? free = inputs.FreeTime(freePath);

        // Without a zone the calendars can still be checked.
        DateTimeZone zone = free?.Zone ?? DateTimeZone.Utc;
        ZonedDateTime from = begin(zone);
        Instant end = Instant.Max(from.ToInstant(), examDay.PlusDays(horizonDays).AtMidnight().InZoneLeniently(zone).ToInstant());
        ImmutableArray<Interval> busy = inputs.Busy(settings.BusyPaths, zone, new(from.ToInstant(), end));
        EarlierPlan? before = beforePath is null ? null : inputs.Before(beforePath, exam, candidate);
        ResourceCatalogue? resources = resourcesPath is null ? null : inputs.Resources(resourcesPath, exam);
        inputs.Check();

        candidate = before is null ? candidate! : candidate!.TakingAsDone(before, from);
        (CandidateStanding standing, StudyReport? study) = candidate.On(from.Date);
        return new PersonsTime(candidate.Name, candidate.Attempts, standing, candidate.Basis, study, free!, busy, from, examDay)
        {
            Before = before,
            Resources = resources,
            Sessions = [.. candidate.Sessions.Select(s => s.Session).Where(s => s.Date < from.Date)],
        };
    }

    /// <summary>The free-time file's path.</summary>
    /// <exception cref="UsageException">It was not given.</exception>
    public static string RequiredFreePath(string command, CalendarSettings settings)
        => Given(settings.FreePath) ?? throw new UsageException($"{command} needs the person's free time: --free FREE.yaml.");

    private static string? Given(string? value) => string.IsNullOrWhiteSpace(value) ? null : value;
}
