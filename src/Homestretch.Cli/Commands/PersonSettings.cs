using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What every command about a person takes, but for the evidence itself, which not every command needs.</summary>
public abstract class PersonSettings : ExamSettings
{
    /// <summary>Paths of evidence files.</summary>
    public abstract string[] EvidencePaths { get; init; }

    /// <summary>The person.</summary>
    [CommandOption("--candidate <NAME>")]
    [Description("The person, where the evidence names several")]
    public string? Candidate { get; init; }

    /// <summary>Paths of study logs.</summary>
    [CommandOption("--log <LOG.csv>")]
    [Description("A study log: what was studied, session by session (docs/study-log.md); may be given several times")]
    public string[] LogPaths { get; init; } = [];

    /// <summary>Paths of a cohort's results.</summary>
    [CommandOption("--cohort <COHORT.csv>")]
    [Description("Results of other people on the same test, such as last year's room: from 30 people on, what they show replaces the usual assumptions; may be given several times")]
    public string[] CohortPaths { get; init; } = [];

    /// <summary>Path of the item bank.</summary>
    [CommandOption("--bank <BANK.csv>")]
    [Description("Calibrated items (docs/item-bank.md): answers to them count with their own difficulty")]
    public string? BankPath { get; init; }

    /// <summary>Every file that is read about the person.</summary>
    public IEnumerable<string> ReadPaths => [ExamPath, .. EvidencePaths, .. LogPaths, .. CohortPaths, .. BankPath is { } bank ? [bank] : Array.Empty<string>()];

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(EvidencePaths).Concat(LogPaths).Concat(CohortPaths).Append(BankPath);
}
