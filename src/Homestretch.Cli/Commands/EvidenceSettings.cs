using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What every command about a person takes.</summary>
public class EvidenceSettings : ExamSettings
{
    /// <summary>Paths of evidence files.</summary>
    [CommandArgument(1, "<EVIDENCE.csv>")]
    [Description("Evidence files: answers, counts or score reports (docs/evidence-file.md); one or more")]
    public string[] EvidencePaths { get; init; } = [];

    /// <summary>The person.</summary>
    [CommandOption("--candidate <NAME>")]
    [Description("The person, where the evidence names several")]
    public string? Candidate { get; init; }

    /// <summary>Paths of study logs.</summary>
    [CommandOption("--log <LOG.csv>")]
    [Description("A study log: what was studied, session by session (docs/study-log.md); may be given several times")]
    public string[] LogPaths { get; init; } = [];

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(EvidencePaths).Concat(LogPaths);
}
