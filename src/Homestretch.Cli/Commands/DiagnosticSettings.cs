using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>diagnostic</c> takes, and every command about a test that several people took.</summary>
public class DiagnosticSettings : ExamSettings
{
    /// <summary>Paths of evidence files.</summary>
    [CommandArgument(1, "<EVIDENCE.csv>")]
    [Description("Evidence files with answers item by item, of as many people as there are (docs/evidence-file.md)")]
    public string[] EvidencePaths { get; init; } = [];

    /// <summary>The test.</summary>
    [CommandOption("--attempt <NAME>")]
    [Description("The test's name in the evidence (default: the diagnostic that most people took)")]
    public string? Attempt { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(EvidencePaths);
}
