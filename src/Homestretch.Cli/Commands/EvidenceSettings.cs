using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What every command about a person with results takes.</summary>
public class EvidenceSettings : PersonSettings
{
    /// <inheritdoc/>
    [CommandArgument(1, "<EVIDENCE.csv>")]
    [Description("Evidence files: answers, counts or score reports (docs/evidence-file.md); one or more")]
    public override string[] EvidencePaths { get; init; } = [];
}
