using System.Globalization;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;
using Homestretch.Files.Plans;

using NodaTime;
using NodaTime.Text;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what to study when, and why.</summary>
internal static class PlanProse
{
    public static void Write(IAnsiConsole console, CandidateReport report, IReadOnlyList<OutputFile> written)
    {
        StudyPlan plan = report.Plan!;
        PolicyOutcome now = plan.Outcome(Policy.None);
        PolicyOutcome then = plan.Outcome(plan.Chosen);
        console.Sentence(plan.Blocks.IsEmpty
            ? $"There is no study time to plan for {report.Candidate}; the pass chance is {Figures.Percent(now.PassChance)}: {Figures.OutOf(now.PassChance)} people in this position pass."
            : $"With this plan {report.Candidate}'s pass chance goes from {Figures.Percent(now.PassChance)} to {Figures.Percent(then.PassChance)}: {Figures.OutOf(then.PassChance)} people in this position pass.");
        console.Sentence(
            $"{report.Standing.Exam.Name}, exam on {LocalDatePattern.Iso.Format(plan.ExamDay)}. {Figures.Plural(plan.Blocks.Length, "block")}, {Figures.Duration(then.Minutes)} of study, "
            + $"of {Figures.Duration(plan.FreeMinutes)} that the free time holds. Times are those of {plan.Zone.Id}.");
        console.Study(report.Study, report.Standing.Exam);
        foreach (string note in plan.Notes.Concat(report.Standing.Taking.Notes))
        {
            console.Point(note);
        }

        foreach (string note in report.Material?.Notes(report.Standing.Exam) ?? [])
        {
            console.Point(note);
        }

        if (report.Forecast.Pace is { } pace)
        {
            console.Point(pace.Sentence);
        }

        if (plan.Revision is { } change)
        {
            console.Heading("What changes");
            foreach (string sentence in RevisionSentences.Summary(plan, change))
            {
                console.Sentence(sentence);
            }

            foreach (string sentence in RevisionSentences.All(change, plan.Zone))
            {
                console.Point(sentence);
            }
        }

        console.Heading("What each way leads to");
        Table policies = Tables.Table("=", ">Study", ">Expected correct", ">Pass chance");
        foreach (PolicyOutcome outcome in plan.Policies)
        {
            policies.Row(
                Name(outcome.Policy) + (outcome.Policy == plan.Chosen ? " (this plan)" : ""),
                outcome.Minutes == 0 ? "-" : Figures.Duration(outcome.Minutes),
                Figures.Count(outcome.ExpectedCorrect),
                Figures.Percent(outcome.PassChance));
        }

        console.Write(policies);
        if (!plan.Minutes.IsEmpty)
        {
            console.Heading("What to study, in this order");
            Table minutes = Tables.Table(">", "Topic and why", ">Study", ">Gain");
            foreach (TopicMinutes topic in plan.Minutes)
            {
                minutes.Row(topic.Order.ToString(CultureInfo.InvariantCulture), $"{topic.Topic.Name}\n{topic.Reason} {report.ChangeOf(topic.Topic)}".TrimEnd(), Figures.Duration(topic.Minutes), Figures.ItemGain(topic.ScoreGain));
            }

            console.Write(minutes);
        }

        if (!plan.LeftAlone.IsEmpty)
        {
            console.Heading("What to leave alone");
            foreach (LeftAlone topic in plan.LeftAlone)
            {
                console.Point($"{topic.Topic.Name}: {topic.Reason} {report.ChangeOf(topic.Topic)}".TrimEnd());
            }
        }

        if (!plan.Blocks.IsEmpty)
        {
            console.Heading("When");
            Table calendar = Tables.Table("=Day", "=Time", "What and why");
            LocalDate? last = null;
            foreach ((int number, StudyBlock block) in plan.Blocks.Index())
            {
                LocalDate date = block.Start.Date;
                calendar.Row(
                    date == last ? "" : Dates.Day(date),
                    Dates.Span(block.Start, block.End),
                    $"{block.Topic.Name}: {Words.Of(block.Purpose)}\n{block.Reason} {report.Changes?.Blocks[number].Sentence}".TrimEnd() + Material(report, number));
                last = date;
            }

            console.Write(calendar);
        }

        console.Basis(report.Basis, report.Standing);
        foreach (OutputFile file in written)
        {
            console.Sentence($"Written: {file.Path}");
        }

        console.Sentence("A forecast is not a promise, and rest and sleep come before one more hour. The exam owner's current handbook overrules what is entered here.");
    }

    private static string Material(CandidateReport report, int block)
        => report.Material is { } material && !material.Blocks[block].IsEmpty ? $"\nWith: {string.Join("; ", material.Blocks[block].Select(p => p.Sentence))}" : "";

    private static string Name(Policy policy) => policy switch
    {
        Policy.None => "no study",
        Policy.PracticeOrder => "practice order",
        _ => "optimised",
    };
}
