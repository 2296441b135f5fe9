using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>simulate</c> takes.</summary>
public sealed class SimulateSettings : CommandSettings
{
    /// <summary>Names of scenarios.</summary>
    [CommandOption("--scenario <NAME>")]
    [Description("A scenario of docs/evidence.md, such as as-assumed; may be given several times (default: all)")]
    public string[] Scenarios { get; init; } = [];

    /// <summary>Names of policies.</summary>
    [CommandOption("--policy <NAME>")]
    [Description("optimised, practice-order, practice-by-hand, equal-shares, by-weight, weakest-first, nothing or oracle; may be given several times (default: all)")]
    public string[] Policies { get; init; } = [];

    /// <summary>Candidates per scenario.</summary>
    [CommandOption("--candidates <N>")]
    [Description("Simulated candidates per scenario (default: 1000)")]
    public string Candidates { get; init; } = "1000";

    /// <summary>Where chance comes from.</summary>
    [CommandOption("--seed <N>")]
    [Description("A whole number from which all chance comes; the same number gives the same figures (default: 1)")]
    public string Seed { get; init; } = "1";

    /// <summary>Whether to print one JSON document.</summary>
    [CommandOption("--json")]
    [Description("Print one JSON document and nothing else (docs/json.md)")]
    public bool Json { get; init; }
}
