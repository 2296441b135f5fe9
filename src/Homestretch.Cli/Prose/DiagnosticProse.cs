using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says whether a test deserves trust.</summary>
internal static class DiagnosticProse
{
    public static void Write(IAnsiConsole console, Exam exam, string attempt, TestReview review)
    {
        console.Sentence($"{attempt}, taken by {People(review.Scores.Persons.Length)}, {Figures.Plural(review.Items.Length, "item")}, for {exam.Name}.");
        foreach (string finding in review.Findings)
        {
            console.Point(finding);
        }

        Items(console, review);
        Reliabilities(console, review);
        CoverageOf(console, review);
        Topics(console, review);
        console.WriteLine();
        console.Sentence(
            "Right: share of correct answers among those who reached the item. Tells: correlation with the other items; below 0.10 it tells nothing, from 0.20 it "
            + "is useful. Alpha: how far the score would be the same with other such items, 0 to 1. Off by: standard error of the score, in items. "
            + "docs/measurement.md has every formula.");
    }

    private static void Items(IAnsiConsole console, TestReview review)
    {
        console.Heading("Items");
        Table table = Tables.Table("=Item", "Topic", ">Right", ">Tells", ">Blank", ">Not reached", "Remark");
        foreach (ItemReport item in review.Items)
        {
            table.Row(
                item.Item.Label,
                item.Item.Topic,
                item.Difficulty.Value is { } p ? Figures.Percent(p) : "-",
                Number(item.Discrimination),
                Count(item.Omitted),
                Count(item.NotReached),
                string.Join(", ", item.Concerns.Select(c => Words.Of(c).Replace('-', ' '))));
        }

        console.Write(table);
        foreach (ItemReport item in review.Items.Where(i => i.Concerns.Length > 0))
        {
            console.Point($"Item {item.Item.Label}: {string.Join(" ", item.Remarks)}");
            if (item.Concerns.Contains(ItemConcern.ProbablyMiskeyed) && item.Options.Length > 0)
            {
                Table options = Tables.Table("=Option", ">Chosen by", ">Best third", ">Lowest third", ">Tells");
                foreach (OptionReport option in item.Options)
                {
                    options.Row(
                        option.Option + (option.IsKey ? " (key)" : ""),
                        Figures.Percent(option.Share),
                        option.UpperShare.Value is { } u ? Figures.Percent(u) : "-",
                        option.LowerShare.Value is { } l ? Figures.Percent(l) : "-",
                        Number(option.RestCorrelation));
                }

                console.Write(options);
            }
        }
    }

    private static void Reliabilities(IAnsiConsole console, TestReview review)
    {
        console.Heading("Reliability");
        Table table = Tables.Table("Score", ">Items", ">Mean", ">Alpha", ">95 % range", ">Halves", ">Off by", ">Right side");
        foreach (PartReliability part in review.Sections.Concat(review.Topics).Prepend(review.Whole with { Name = "Whole test" }))
        {
            ReliabilityReport r = part.Reliability;
            table.Row(
                part.Name,
                Count(r.Items),
                r.Mean.Value is { } mean ? mean.ToString("0.0", CultureInfo.InvariantCulture) : "-",
                Number(r.Alpha),
                r.AlphaInterval is { } i ? string.Create(CultureInfo.InvariantCulture, $"{i.Low:0.00}-{i.High:0.00}") : "-",
                Number(r.SplitHalf),
                r.StandardError.Value is { } error ? error.ToString("0.0", CultureInfo.InvariantCulture) : "-",
                part.Classification?.Accuracy.Value is { } a ? Figures.Percent(a) : "");
        }

        console.Write(table);
        if (review.Whole.Reliability.Alpha.Refusal is { } refusal)
        {
            console.Sentence(refusal);
        }
    }

    private static void CoverageOf(IAnsiConsole console, TestReview review)
    {
        console.Heading("Coverage of the blueprint");
        Table table = Tables.Table("Topic", ">Items", ">By blueprint", "Coverage", ">Further items");
        foreach (TopicCoverage topic in review.Coverage)
        {
            TopicFurtherItems? further = review.Further.FirstOrDefault(f => f.Topic.Name == topic.Topic.Name);
            table.Row(
                topic.Topic.Name,
                Count(topic.Items),
                Count(topic.Expected),
                Words.Of(topic.Verdict).Replace('-', ' '),
                further switch
                {
                    null => "",
                    { Items: { } items } => $"{items} (for {further.Candidates})",
                    _ => $"over {StandingCalculator.MostItemsToSettle} (for {further.Candidates})",
                });
        }

        console.Write(table);
        foreach (TopicCoverage topic in review.Coverage.Where(c => c.Remark.Length > 0))
        {
            console.Point($"{topic.Topic.Name}: {topic.Remark}");
        }

        if (review.Further.Length > 0)
        {
            console.Sentence("Further items: how many would settle the topic for at least half of those whose plan turns on it, and how many people that is.");
        }
    }

    private static void Topics(IAnsiConsole console, TestReview review)
    {
        console.Heading("Are the topics distinct?");
        console.Sentence(review.Dimensions.Summary);
        foreach (SubscoreValue topic in review.Dimensions.Topics)
        {
            console.Point($"{topic.Topic}: {topic.Remark}");
        }
    }

    private static string Number(Statistic statistic) => statistic.Value is { } v ? v.ToString("0.00", CultureInfo.InvariantCulture) : "-";

    private static string Count(int count) => count.ToString(CultureInfo.InvariantCulture);

    private static string People(int count) => count == 1 ? "1 person" : $"{count} people";
}
