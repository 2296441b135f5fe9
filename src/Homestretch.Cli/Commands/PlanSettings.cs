using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>plan</c> takes.</summary>
public sealed class PlanSettings : CalendarSettings
{
    /// <summary>How minutes are shared.</summary>
    [CommandOption("--policy <POLICY>")]
    [Description("'optimised' (default: the minutes that make a pass most likely) or 'practice-order' (the order coaches use)")]
    public string Policy { get; init; } = "optimised";

    /// <summary>Where to write the calendar file.</summary>
    [CommandOption("--ics <OUT.ics>")]
    [Description("Write the plan as a calendar file; importing a later one moves events and doubles none")]
    public string? CalendarPath { get; init; }

    /// <summary>Where to write the handout.</summary>
    [CommandOption("--handout <OUT.html>")]
    [Description("Write a handout to print")]
    public string? HandoutPath { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat([CalendarPath, HandoutPath]);
}
