using System.ComponentModel;

using Spectre.Console;
using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>exam</c> takes, and what every command takes first.</summary>
public class ExamSettings : CommandSettings
{
    /// <summary>Path of the exam file.</summary>
    [CommandArgument(0, "<EXAM.yaml>")]
    [Description("The exam file: blueprint, pass marks, retake rules (docs/exam-file.md)")]
    public string ExamPath { get; init; } = "";

    /// <summary>Whether to print one JSON document.</summary>
    [CommandOption("--json")]
    [Description("Print one JSON document and nothing else (docs/json.md)")]
    public bool Json { get; init; }

    /// <summary>Every file name on the command line.</summary>
    protected virtual IEnumerable<string?> Paths => [ExamPath];

    /// <inheritdoc/>
    public override ValidationResult Validate()
        => Paths.Any(path => path is not null && string.IsNullOrWhiteSpace(path))
            ? ValidationResult.Error("A file name is empty.")
            : ValidationResult.Success();
}
