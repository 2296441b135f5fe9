using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>equate</c> takes.</summary>
public sealed class EquateSettings : ExamSettings
{
    /// <summary>Paths of evidence files.</summary>
    [CommandArgument(1, "<EVIDENCE.csv>")]
    [Description("Evidence files of as many people as there are (docs/evidence-file.md); 30 or more must have taken both tests")]
    public string[] EvidencePaths { get; init; } = [];

    /// <summary>The test whose scores are converted.</summary>
    [CommandOption("--from <TEST>")]
    [Description("The test whose scores are converted, by its name in the evidence (needed)")]
    public string? From { get; init; }

    /// <summary>The test they are converted to.</summary>
    [CommandOption("--to <TEST>")]
    [Description("The test they are converted to (default: official results, whatever their name)")]
    public string? To { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(EvidencePaths);
}
