using Homestretch.Cli.Prose;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Changes;
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
        Policy policy = PolicyNamed(settings.Policy);
        OutputFile.CheckPlaces([.. settings.ReadPaths, PersonsTime.RequiredFreePath("plan", settings), .. settings.BusyPaths], [settings.CalendarPath, settings.HandoutPath]);

        PersonsTime person = PersonsTime.Read("plan", settings, clock);
        CandidateStanding standing = person.Standing;
        CandidateReport report = new(
            person.Candidate,
            standing,
            person.Basis,
            ForecastCalculator.Calculate(standing),
            WorthCalculator.NextMinutes(standing),
            Planner.Plan(standing, person.Free, person.Busy, person.From, person.ExamDay, policy, cancellation: cancellationToken))
        {
            Study = person.Study,
        };
        report = report with { Changes = ChangeFinder.Find(standing, person.Attempts, report.Plan!, person.Free, person.Busy, person.Basis.Bank, cancellationToken) };
        List<OutputFile> files = [];
        if (settings.CalendarPath is { } calendar)
        {
            files.Add(new(calendar, PlanCalendar.Write(report.Plan!, report.Candidate, standing.Exam.Name, now)));
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

    private static Policy PolicyNamed(string name) => name switch
    {
        "optimised" => Policy.Optimised,
        "practice-order" => Policy.PracticeOrder,
        _ => throw new UsageException($"--policy is optimised or practice-order; '{name}' is neither."),
    };
}
