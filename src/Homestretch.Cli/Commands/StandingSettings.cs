using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>standing</c> and <c>forecast</c> take.</summary>
public sealed class StandingSettings : EvidenceSettings
{
    /// <summary>The day to speak of.</summary>
    [CommandOption("--as-of <DATE>")]
    [Description("The day to speak of; evidence counts less the older it is on that day (default: the day of the latest evidence or session)")]
    public string? AsOf { get; init; }
}
