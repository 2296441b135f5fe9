using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>next</c> takes.</summary>
public sealed class NextSettings : PersonSettings
{
    /// <inheritdoc/>
    [CommandArgument(1, "[EVIDENCE.csv]")]
    [Description("Evidence files (docs/evidence-file.md): the person's answers so far, and those of others, who count for exposure only; none for the very first item")]
    public override string[] EvidencePaths { get; init; } = [];

    /// <summary>Whether the person is not in the evidence.</summary>
    [CommandOption("--newcomer")]
    [Description("The person has no results yet; the files hold those of others. Then, and without any file, --candidate gives the name")]
    public bool Newcomer { get; init; }

    /// <summary>The day to speak of.</summary>
    [CommandOption("--as-of <DATE>")]
    [Description("The day of the diagnostic (default: the day of the person's latest evidence, or today); on a new day a new diagnostic begins")]
    public string? AsOf { get; init; }

    /// <summary>Items to choose.</summary>
    [CommandOption("--count <ITEMS>")]
    [Description("Items to choose: 1 (default) for the next one, more for the best set to print before any answer is seen")]
    public int Count { get; init; } = 1;

    /// <summary>What to find out.</summary>
    [CommandOption("--find <WHAT>")]
    [Description("'pass' (default: the pass chance) or 'levels' (weak, borderline or strong, on the topics where study moves the pass chance)")]
    public string Find { get; init; } = "pass";

    /// <summary>Items given in any case.</summary>
    [CommandOption("--at-least <ITEMS>")]
    [Description("Items before it may stop (default: 8)")]
    public int? AtLeast { get; init; }

    /// <summary>Items after which it stops.</summary>
    [CommandOption("--at-most <ITEMS>")]
    [Description("Items after which it stops (default: 30)")]
    public int? AtMost { get; init; }

    /// <summary>The limit on exposure, in percent.</summary>
    [CommandOption("--exposure <PERCENT>")]
    [Description("Hold back items that more than this share of the other people have answered (default: 50; 100 for no limit); counts from 5 other people on")]
    public int? Exposure { get; init; }

    /// <summary>How many best items to draw from.</summary>
    [CommandOption("--among <ITEMS>")]
    [Description("Draw from so many of the items that tell most (default: 5; 1 for always the best), none of which may tell less than 75 % of the best")]
    public int? Among { get; init; }

    /// <summary>Whether there are no results of the person.</summary>
    public bool IsNew => Newcomer || EvidencePaths.Length == 0;
}
