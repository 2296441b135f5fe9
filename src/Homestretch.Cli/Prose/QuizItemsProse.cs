using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Pictures;
using Homestretch.Files.QuizItems;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says which items there are to practise on, and what was not taken over.</summary>
internal static class QuizItemsProse
{
    public static void Write(IAnsiConsole console, Exam exam, QuizItemSet set)
    {
        console.Sentence($"{Figures.Plural(set.Items.Length, "item")} to practise on for {exam.Name}; {(set.Skipped.IsEmpty ? "nothing was left out" : $"{set.Skipped.Length} left out")}.");
        Table topics = Tables.Table("Topic", ">Items");
        foreach (ExamTopic topic in exam.Topics)
        {
            topics.Row(topic.Name, set.Items.Count(i => i.Topic == topic.Name).ToString(CultureInfo.InvariantCulture));
        }

        console.Write(topics);
        foreach (ExamTopic topic in exam.Topics.Where(t => set.Items.Any(i => i.Topic == t.Name)))
        {
            console.Heading(topic.Name);
            foreach (QuizItem item in set.Items.Where(i => i.Topic == topic.Name))
            {
                console.Point($"{item.Id}{(item.Subtopic is null ? "" : $" ({item.Subtopic})")}: {item.Prompt.Plain}\n"
                    + string.Join('\n', item.Options.Select(o => $"{(o.IsCorrect ? "[x]" : "[ ]")} {o.Text.Plain}"))
                    + (item.Explanation is { } why ? "\n" + why.Plain : ""));
            }
        }

        Remarks(console, "Left out", set.Skipped);
        Remarks(console, "Not taken over as it stands", set.Notes);
        console.Sentence("Practise on items of your own or such as their owner lets you use; no material here contains real questions.");
    }

    private static void Remarks(IAnsiConsole console, string heading, IReadOnlyList<ItemRemark> remarks)
    {
        if (remarks.Count > 0)
        {
            console.Heading(heading);
            foreach (ItemRemark remark in remarks)
            {
                console.Point($"{remark.Item} ({remark.File}): {remark.Text}");
            }
        }
    }
}
