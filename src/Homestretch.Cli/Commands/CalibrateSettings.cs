using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>calibrate</c> takes.</summary>
public sealed class CalibrateSettings : ExamSettings
{
    /// <summary>Paths of evidence files.</summary>
    [CommandArgument(1, "<EVIDENCE.csv>")]
    [Description("Evidence files of several people (docs/evidence-file.md): earlier tests and a later outcome, or one test item by item with --split")]
    public string[] EvidencePaths { get; init; } = [];

    /// <summary>What counts as the outcome.</summary>
    [CommandOption("--outcome <NAME>")]
    [Description("The attempt that counts as the outcome, such as a practice exam (default: official results)")]
    public string? Outcome { get; init; }

    /// <summary>Random splits.</summary>
    [CommandOption("--split <N>")]
    [Description("Split one test instead: N times, half of its items at random is the diagnostic and the other half the exam; 200 is plenty")]
    public int? Splits { get; init; }

    /// <summary>Seed of the splits.</summary>
    [CommandOption("--seed <SEED>")]
    [Description("With --split: a whole number; the same seed gives the same splits (default: 1)")]
    public int? Seed { get; init; }

    /// <summary>Whether priors are learned from people who took both halves.</summary>
    [CommandOption("--exam-sat")]
    [Description("With --split: learn from people who took both halves, as from an earlier room that has sat the exam (default: from the diagnostic half only)")]
    public bool ExamSat { get; init; }

    /// <summary>The test to split.</summary>
    [CommandOption("--attempt <NAME>")]
    [Description("With --split: the test's name in the evidence (default: the diagnostic that most people took)")]
    public string? Attempt { get; init; }

    /// <summary>Where to write the picture.</summary>
    [CommandOption("--picture <OUT.svg>")]
    [Description("Write a picture: the share that passed against the pass chance")]
    public string? PicturePath { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(EvidencePaths).Append(PicturePath);
}
