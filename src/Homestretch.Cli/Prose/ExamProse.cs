using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;

using NodaTime.Text;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what an exam asks.</summary>
internal static class ExamProse
{
    public static void Write(IAnsiConsole console, Exam exam)
    {
        console.Sentence(exam.Edition is null ? exam.Name : $"{exam.Name}, edition {exam.Edition}");
        console.Sentence($"{Figures.Plural(exam.ScoredItems, "scored item")} in {Figures.Plural(exam.Sections.Length, "section")} and {Figures.Plural(exam.Topics.Length, "topic")}. {Rule(exam)}");
        foreach ((Section section, int s) in exam.Sections.Select((section, s) => (section, s)))
        {
            console.Heading(section.Name);
            console.Sentence(Facts(section));
            Table table = Tables.Table("Topic", ">Items", ">Published", "=Weight in the exam");
            foreach (ExamTopic topic in exam.Topics.Where(t => t.SectionIndex == s))
            {
                table.Row(topic.Name, Text(topic.Items), Words.Of(topic.Topic.Weight), Words.Of(topic.WeightClass));
                foreach (Subtopic part in topic.Topic.Subtopics)
                {
                    table.Row("  " + part.Name, Text(part.Items), part.Weight is { } weight ? Words.Of(weight) : "", "");
                }
            }

            console.Write(table);
        }

        if (exam.Retake is { } retake)
        {
            console.Sentence($"Retake: after {Figures.Plural(retake.WaitingDays, "day")}{(retake.AttemptsPerYear is { } most ? $", at most {Figures.Plural(most, "attempt")} in twelve months" : "")}.");
        }

        console.Sentence((exam.Source is { } source
            ? $"Figures from: {source.Title}, {LocalDatePattern.Iso.Format(source.Date)}{(source.Where is null ? "" : $" ({source.Where})")}. "
            : "") + "The exam owner's current handbook overrules any blueprint entered here.");
    }

    private static string Rule(Exam exam) => exam.Rule switch
    {
        OverallRule.EverySection => exam.Sections.Length == 1 ? "To pass, reach the pass mark." : "To pass, every section must reach its own pass mark.",
        OverallRule.Total => $"To pass, {exam.RequiredCorrect} correct answers in all are needed ({Words.Of(exam.TotalCut!)}).",
        _ => $"To pass, {exam.TotalCut!.RequiredCorrect(exam.ScoredItems)} correct answers in all are needed ({Words.Of(exam.TotalCut!)}), and each section must reach its minimum.",
    };

    private static string Facts(Section section)
    {
        List<string> facts = [$"{Figures.Plural(section.ScoredItems, "scored item")}"];
        if (section.UnscoredItems > 0)
        {
            facts.Add(Figures.Plural(section.UnscoredItems, "unscored item"));
        }

        if (section.Minutes is { } minutes)
        {
            facts.Add(Figures.Plural(minutes, "minute"));
        }

        facts.Add(section.Options == 0 ? "no options to choose from" : $"{section.Options} options per item");
        if (section.Cut is { } cut)
        {
            facts.Add($"pass mark {cut.RequiredCorrect(section.ScoredItems)} correct{(cut is CorrectCut ? "" : $" ({Words.Of(cut)})")}");
        }

        return string.Join(", ", facts) + ".";
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
