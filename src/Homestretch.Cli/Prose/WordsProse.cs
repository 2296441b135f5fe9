using Homestretch.Core.Words;
using Homestretch.Files.Pictures;
using Homestretch.Files.WordLists;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says which words to recall today and what is expected to be known on exam day.</summary>
internal static class WordsProse
{
    private static readonly (WordState State, string Heading)[] _others =
    [
        (WordState.DoneToday, "Done today"),
        (WordState.Later, "Later"),
        (WordState.NoRoom, "No time for"),
        (WordState.TooLate, "Too late for"),
        (WordState.HardlySticks, "Do not stick"),
        (WordState.LacksDefinition, "Without a definition"),
        (WordState.Sure, "Known, left alone"),
    ];

    public static void Write(IAnsiConsole console, WordPlan plan, int all, IReadOnlyList<OutputFile> written)
    {
        console.Sentence(WordSentences.Today(plan));
        console.Sentence(WordSentences.Expected(plan));
        if (all > plan.Words.Length)
        {
            console.Sentence($"{Figures.Plural(all - plan.Words.Length, "word")} noted after {Dates.Plain(plan.Today)} left out.");
        }

        if (!plan.ForToday.IsEmpty)
        {
            console.Heading("Practise today");
            Table table = Tables.Table("Word", "Topic", "Why");
            foreach (WordOutlook word in plan.ForToday)
            {
                table.Row(word.Word.Term, word.Word.Topic ?? "-", WordSentences.Why(word));
            }

            console.Write(table);
        }

        foreach ((WordState state, string heading) in _others)
        {
            WordOutlook[] words = [.. plan.Words.Where(w => w.State == state)];
            if (words.Length > 0)
            {
                console.Heading(heading);
                foreach (WordOutlook word in words)
                {
                    console.Point($"{word.Word.Term}: {WordSentences.Why(word)}");
                }
            }
        }

        console.WriteLine();
        foreach (OutputFile file in written)
        {
            console.Sentence($"Written: {file.Path}");
        }

        console.Sentence($"Say what a word means before you look. Time for {Figures.Plural(plan.RecallsPerDay, "word")} a day. docs/words.md says how the words are chosen.");
    }
}
