using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;
using Homestretch.Files.StudyLogs;

using NodaTime.Text;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says where a person stands.</summary>
internal static class StandingProse
{
    public static void Write(IAnsiConsole console, string candidate, CandidateStanding standing, StandingBasis basis, StudyReport? study)
    {
        IEnumerable<string> counts = Enum.GetValues<Band>().Reverse()
            .Select(band => (Word: Words.Of(band), Count: standing.Topics.Count(t => t.Level.Band == band)))
            .Where(c => c.Count > 0)
            .Select(c => $"{c.Word} on {c.Count}");
        console.Sentence($"Of the {Figures.Plural(standing.Topics.Length, "topic")}, {candidate} is {Joined([.. counts])}.");
        console.Sentence($"{standing.Exam.Name}, as of {LocalDatePattern.Iso.Format(standing.AsOf)}, from {Figures.Plural(standing.EvidenceItems, "answered item")}.");
        console.Study(study, standing.Exam);
        foreach (string note in standing.Taking.Notes)
        {
            console.Point(note);
        }

        foreach ((Section section, int s) in standing.Exam.Sections.Select((section, s) => (section, s)))
        {
            Level whole = standing.Sections[s].Level;
            console.Heading(section.Name);
            console.Sentence($"Expected {Figures.Percent(whole.Mean)} correct, 90 % range {Figures.PercentRange(whole.Low, whole.High)}.");
            Table table = Tables.Table("Topic", ">Items", ">Seen", ">Correct", ">90 % range", "=Standing", ">Sure", ">To settle");
            foreach (TopicStanding topic in standing.Topics.Where(t => t.Topic.SectionIndex == s))
            {
                Row(table, topic.Topic.Name, topic.Topic.Items, topic.EvidenceItems, topic.Level, topic switch
                {
                    { Level.Settled: true } => "settled",
                    { ItemsToSettle: { } more } => $"{more} more",
                    _ => $"over {StandingCalculator.MostItemsToSettle}",
                });
                foreach (SubtopicStanding part in topic.Subtopics)
                {
                    Row(table, "  " + part.Name, part.Items, part.EvidenceItems, part.Level, "");
                }
            }

            console.Write(table);
        }

        foreach (TopicStanding topic in standing.Topics)
        {
            foreach (SubtopicStanding part in topic.Subtopics.Where(p => p.HiddenHole))
            {
                console.Point($"{topic.Topic.Name} as a whole is {Words.Of(topic.Level.Band)}, but its part {part.Name} may well be weak (about {Figures.Percent(part.Level.Mean)}).");
            }
        }

        console.Basis(basis, standing);
        console.Sentence(
            $"Correct: expected share of items answered correctly; weak is below {Figures.Percent(standing.Exam.Bands.WeakBelow)}, strong from {standing.Exam.Bands.StrongFrom * 100:0.#} %. "
            + "Seen: items answered so far. Sure: chance that the standing is right. To settle: further items that would, on average, make it " + Figures.Percent(Level.SettledFrom) + " sure.");
    }

    private static void Row(Table table, string name, int items, int seen, Level level, string settle) => table.Row(
        name,
        items.ToString(CultureInfo.InvariantCulture),
        seen.ToString(CultureInfo.InvariantCulture),
        Figures.Percent(level.Mean),
        Figures.PercentRange(level.Low, level.High),
        Tables.Mark(level.Band),
        Figures.Percent(level.Chances[level.Band]),
        settle);

    private static string Joined(string[] parts) => parts.Length switch
    {
        1 => parts[0],
        2 => $"{parts[0]} and {parts[1]}",
        _ => $"{string.Join(", ", parts[..^1])} and {parts[^1]}",
    };
}
