using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;
using Homestretch.Files.StudyLogs;

using NodaTime.Text;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what to give next in a quick diagnostic, or that it may stop.</summary>
internal static class NextProse
{
    public static void Write(IAnsiConsole console, StudiedCandidate person, CandidateStanding standing, DiagnosticStep step)
    {
        string candidate = person.Name;
        console.Sentence(StepSentences.Stop(step) is { } stop
            ? $"{candidate}'s quick diagnostic may stop here. {stop}"
            : step.Items.Length == 1
                ? $"Give {candidate} item {Label(step.Items[0])} on {step.Items[0].Item.Topic} next."
                : $"Give {candidate} these {step.Items.Length} items, in any order.");
        console.Sentence(
            $"{standing.Exam.Name}, as of {LocalDatePattern.Iso.Format(standing.AsOf)}, from {Figures.Plural(standing.EvidenceItems, "answered item")}; "
            + $"{Figures.Plural(step.Given, "item")} of the bank in this diagnostic so far.");
        console.Sentence(
            $"Pass chance as things stand: {Figures.Percent(step.Pass.Mean)}, give or take {StepSentences.Points(step.Pass.Sd)}. Were all abilities known, it would lie somewhere from "
            + $"{Figures.Percent(step.Pass.Low)} to {Figures.Percent(step.Pass.High)} (90 % range).");
        Levels(console, step);
        Items(console, step);
        Bank(console, step);
        console.Basis(person.Basis, standing);
        console.Sentence("Pass chances here are for an exam sat now, without further study. How items are chosen: docs/measurement.md.");
    }

    private static void Levels(IAnsiConsole console, DiagnosticStep step)
    {
        if (step.Levels.IsEmpty)
        {
            return;
        }

        console.Heading("Levels to settle, where study moves the pass chance");
        Table table = Tables.Table("Topic", "=Standing", ">Sure");
        foreach (TopicStanding topic in step.Levels)
        {
            table.Row(topic.Topic.Name, Tables.Mark(topic.Level.Band), Figures.Percent(topic.Level.Chances[topic.Level.Band]));
        }

        console.Write(table);
    }

    private static void Items(IAnsiConsole console, DiagnosticStep step)
    {
        if (step.Items.IsEmpty)
        {
            return;
        }

        console.Heading(step.Items.Length == 1 ? "What its answer would tell" : "What each answer alone would tell");
        Table table = Tables.Table("=Item", "Topic", ">Right", ">Pass if right", ">If wrong", ">Moves by");
        foreach (NextItem item in step.Items)
        {
            table.Row(
                Label(item),
                item.Item.Topic,
                Figures.Percent(item.ChanceRight),
                Figures.Percent(item.PassIfRight),
                Figures.Percent(item.PassIfWrong),
                StepSentences.Points(item.PassMove));
        }

        console.Write(table);
        if (step.Items.Length == 1)
        {
            console.Sentence(StepSentences.Why(step, step.Items[0]));
        }

        string share = Figures.Percent(step.ShareToLearn);
        console.Sentence(step.Rules.Target == DiagnosticTarget.Bands
            ? $"After {Them(step)}, {share} of what is uncertain about the levels is expected to be gone, on average over the answers."
            : $"After {Them(step)} the pass chance is expected to be known to give or take {StepSentences.Points(Math.Sqrt(step.DoubtAfter))}, on average over the answers: "
                + $"{share} of the squared uncertainty gone.");
    }

    private static void Bank(IAnsiConsole console, DiagnosticStep step)
    {
        BankStock stock = step.Stock;
        List<string> parts = [];
        if (stock.Answered > 0)
        {
            parts.Add($"{stock.Answered} answered before");
        }

        if (stock.TooFamiliar > 0)
        {
            parts.Add($"{stock.TooFamiliar} held back since more than {Figures.Percent(step.Rules.MostExposure)} of the others have had them");
        }

        if (stock.OutOfTurn > 0)
        {
            parts.Add($"{stock.OutOfTurn} waiting for their topic's turn in the blueprint");
        }

        parts.Add($"{stock.Open} that may come next");
        console.Sentence($"The bank has {Figures.Plural(stock.Items, "item")} for this exam: {string.Join(", ", parts)}.");
        foreach (string topic in stock.Lacking.Select(t => t.Name))
        {
            console.Point($"{topic} has had fewer items than its share of the blueprint, and the bank has none left on it.");
        }
    }

    private static string Label(NextItem item) => item.Item.Test is { } test ? $"{item.Item.Item} of {test}" : item.Item.Item;

    private static string Them(DiagnosticStep step) => step.Items.Length == 1 ? "it" : $"these {step.Items.Length}";
}
