using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>words</c> takes.</summary>
public sealed class WordsSettings : ExamSettings
{
    /// <summary>Paths of the words.</summary>
    [CommandArgument(1, "<WORDS.csv>")]
    [Description("The person's unknown words, with definitions and answers so far (docs/words.md); one or more files")]
    public string[] WordPaths { get; init; } = [];

    /// <summary>The day of the exam.</summary>
    [CommandOption("--exam-day <DATE>")]
    [Description("The day of the exam, such as 2026-12-16; required")]
    public string? ExamDay { get; init; }

    /// <summary>The day to practise on.</summary>
    [CommandOption("--today <DATE>")]
    [Description("The day to choose words for (default: today); later words and answers do not count yet")]
    public string? Today { get; init; }

    /// <summary>Minutes a day.</summary>
    [CommandOption("--minutes <MINUTES>")]
    [Description("Minutes a day for words, 1 to 240 (default: 10); a word takes about 20 seconds")]
    public int Minutes { get; init; } = 10;

    /// <summary>Answers of today.</summary>
    [CommandOption("--answer <TERM=OUTCOME>")]
    [Description("How a recall went today: knew, partly or not, such as 'provenance=knew'; may be given several times. --out keeps it")]
    public string[] Answers { get; init; } = [];

    /// <summary>Where to write the cards.</summary>
    [CommandOption("--cards <CARDS.html>")]
    [Description("Write all words as cards to print on both sides and cut")]
    public string? CardsPath { get; init; }

    /// <summary>Where to write the words.</summary>
    [CommandOption("--out <WORDS.csv>")]
    [Description("Write all words into one file, with today's answers")]
    public string? OutPath { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(WordPaths).Append(CardsPath).Append(OutPath);
}
