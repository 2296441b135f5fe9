using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>quiz-items</c> takes.</summary>
public sealed class QuizItemsSettings : ExamSettings
{
    /// <summary>Paths of files of items.</summary>
    [CommandArgument(1, "<ITEMS>")]
    [Description("Files of items: sheets (.csv, .xlsx), QTI items (.xml) and QTI content packages (.zip); one or more")]
    public string[] ItemPaths { get; init; } = [];

    /// <summary>The topic of items that say none.</summary>
    [CommandOption("--topic <TOPIC>")]
    [Description("Topic or subtopic of QTI items of which neither package nor folder tells it")]
    public string? Topic { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(ItemPaths);
}
