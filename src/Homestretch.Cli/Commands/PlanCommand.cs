using System.Globalization;

using Homestretch.Cli.Prose;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Changes;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Planning.Resources;
using Homestretch.Core.Planning.Wishes;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Documents;
using Homestretch.Files.Handouts;
using Homestretch.Files.Printing;

using NodaTime;
using NodaTime.Extensions;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Lays a study plan into a person's free time.</summary>
public sealed class PlanCommand(Answer answer, TimeProvider clock) : AsyncCommand<PlanSettings>
{
    /// <inheritdoc/>
    public override async Task<int> ExecuteAsync(CommandContext context, PlanSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        Instant now = clock.GetUtcNow().ToInstant();
        Policy policy = PolicyNamed(settings.Policy);
        PaperSize paper = PaperNamed(settings);
        OutputFile.CheckPlaces([.. settings.ReadPaths, PersonsTime.RequiredFreePath("plan", settings), .. settings.BusyPaths, .. Given(settings.BeforePath), .. Given(settings.ResourcesPath)], [settings.CalendarPath, settings.HandoutPath, settings.PdfPath]);

        double moveCost = MoveCost(settings, policy);
        PersonsTime person = PersonsTime.Read("plan", settings, clock, beforePath: settings.BeforePath, resourcesPath: settings.ResourcesPath);
        CandidateStanding standing = person.Standing;
        CoachWishes wishes = WishText.Read(settings, standing.Exam, person.Free.Zone);
        CandidateReport report = new(
            person.Candidate,
            standing,
            person.Basis,
            ForecastCalculator.Calculate(standing),
            WorthCalculator.NextMinutes(standing),
            person.Before is { } before
                ? Replanner.Plan(standing, person.Free, person.Busy, person.From, person.ExamDay, before, moveCost, cancellation: cancellationToken)
                : wishes.IsEmpty ? Planner.Plan(standing, person.Free, person.Busy, person.From, person.ExamDay, policy, cancellation: cancellationToken)
                : Obeying(wishes, person, policy, cancellationToken))
        {
            Study = person.Study,
        };
        // What would change a plan is worked out from plans made without wishes, so it would not be true of one with them.
        report = !wishes.IsEmpty ? report : report with { Changes = ChangeFinder.Find(standing, person.Attempts, report.Plan!, person.Free, person.Busy, person.Basis.Bank, cancellationToken) };
        if (person.Resources is { } catalogue)
        {
            report = report with { Material = MaterialFinder.Find(report.Plan!, standing.Exam, catalogue.Resources, person.Sessions) };
        }

        List<OutputFile> files = [];
        if (settings.CalendarPath is { } calendar)
        {
            files.Add(new(calendar, PlanCalendar.Write(report.Plan!, report.Candidate, standing.Exam.Name, now, report.Material)));
        }

        if (settings.HandoutPath is { } handout)
        {
            files.Add(new(handout, Handout.Html(report)));
        }

        if (settings.PdfPath is { } pdf)
        {
            files.Add(new(pdf, await PrintedAsync(pdf, report, paper, cancellationToken)));
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

    private static StudyPlan Obeying(CoachWishes wishes, PersonsTime person, Policy policy, CancellationToken cancellation)
    {
        WishResult result = WishedPlanner.Plan(person.Standing, person.Free, person.Busy, person.From, person.ExamDay, wishes, policy, cancellation: cancellation);
        return result.Plan ?? throw new UsageException(string.Join(' ', result.Refusals));
    }

    private static async Task<byte[]> PrintedAsync(string path, CandidateReport report, PaperSize paper, CancellationToken cancellation)
    {
        try
        {
            using PdfPrinter printer = new();
            return await HandoutPdf.PrintAsync(printer, [report], paper, cancellation);
        }
        catch (PrintingException e)
        {
            throw new BadInputException([new(path, 1, e.Message)]);
        }
    }

    private static PaperSize PaperNamed(PlanSettings settings) => settings.Paper switch
    {
        not null when settings.PdfPath is null => throw new UsageException("--paper needs --pdf OUT.pdf."),
        null or "a4" => PaperSize.A4,
        "letter" => PaperSize.Letter,
        { } name => throw new UsageException($"--paper is a4 or letter; '{name}' is neither."),
    };

    private static string[] Given(string? path) => path is null ? [] : [path];

    private static double MoveCost(PlanSettings settings, Policy policy)
    {
        if (settings.BeforePath is null && settings.MoveCost is not null)
        {
            throw new UsageException("--move-cost needs an earlier plan: --before PLAN.json.");
        }

        if (settings.BeforePath is not null && policy != Policy.Optimised)
        {
            throw new UsageException("A plan that goes on from an earlier one is optimised; leave out --policy or --before.");
        }

        return settings.MoveCost switch
        {
            null => Replanner.DefaultMoveCost,
            >= 0 and <= 100 and double points => points / 100,
            double points => throw new UsageException(string.Create(CultureInfo.InvariantCulture, $"--move-cost is a number of points from 0 to 100; {points} is not.")),
        };
    }

    private static Policy PolicyNamed(string name) => name switch
    {
        "optimised" => Policy.Optimised,
        "practice-order" => Policy.PracticeOrder,
        _ => throw new UsageException($"--policy is optimised or practice-order; '{name}' is neither."),
    };
}
