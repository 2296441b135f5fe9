using System.Collections.Immutable;

using Homestretch.Cli.Prose;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Documents;
using Homestretch.Files.Handouts;

using NodaTime;
using NodaTime.Extensions;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Lays a study plan into a person's free time.</summary>
public sealed class PlanCommand(Answer answer, TimeProvider clock) : Command<PlanSettings>
{
    /// <inheritdoc/>
    public override int Execute(CommandContext context, PlanSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Instant now = clock.GetUtcNow().ToInstant();
        string freePath = Given(settings.FreePath) ?? throw new UsageException("plan needs the person's free time: --free FREE.yaml.");
        LocalDate examDay = MomentText.Date("--exam-day", Given(settings.ExamDay) ?? throw new UsageException("plan needs the day of the exam, such as --exam-day 2026-12-16."));
        Func<DateTimeZone, ZonedDateTime> begin = settings.From is { } text ? MomentText.Moment("--from", text) : now.InZone;
        Policy policy = PolicyNamed(settings.Policy);
        OutputFile.CheckPlaces([settings.ExamPath, freePath, .. settings.EvidencePaths, .. settings.BusyPaths], [settings.CalendarPath, settings.HandoutPath]);

        Inputs inputs = new();
        Exam? exam = inputs.Exam(settings.ExamPath);
        (string Name, ImmutableArray<Attempt> Attempts)? candidate = inputs.Candidate(settings.EvidencePaths, exam, settings.Candidate);
        FreeTime? free = inputs.FreeTime(freePath);

        // Without a zone the calendars can still be checked.
        DateTimeZone zone = free?.Zone ?? DateTimeZone.Utc;
        ZonedDateTime from = begin(zone);
        Instant end = Instant.Max(from.ToInstant(), examDay.AtMidnight().InZoneLeniently(zone).ToInstant());
        ImmutableArray<Interval> busy = inputs.Busy(settings.BusyPaths, zone, new(from.ToInstant(), end));
        inputs.Check();

        CandidateStanding standing = StandingCalculator.Calculate(exam!, candidate!.Value.Attempts, from.Date);
        CandidateReport report = new(
            candidate.Value.Name,
            standing,
            ForecastCalculator.Calculate(standing),
            WorthCalculator.NextMinutes(standing),
            Planner.Plan(standing, free!, busy, from, examDay, policy, cancellation: cancellationToken));
        List<OutputFile> files = [];
        if (settings.CalendarPath is { } calendar)
        {
            files.Add(new(calendar, PlanCalendar.Write(report.Plan!, report.Candidate, exam!.Name, now)));
        }

        if (settings.HandoutPath is { } handout)
        {
            files.Add(new(handout, Handout.Html(report)));
        }

        string? document = settings.Json ? DocumentJson.Write(PlanDocument.Of(report)) : null;
        OutputFile.WriteAll(files);
        if (document is not null)
        {
            answer.Output.WriteLine(document);
        }
        else
        {
            PlanProse.Write(answer.Console, report, files);
        }

        return Shell.Done;
    }

    private static string? Given(string? value) => string.IsNullOrWhiteSpace(value) ? null : value;

    private static Policy PolicyNamed(string name) => name switch
    {
        "optimised" => Policy.Optimised,
        "practice-order" => Policy.PracticeOrder,
        _ => throw new UsageException($"--policy is optimised or practice-order; '{name}' is neither."),
    };
}
