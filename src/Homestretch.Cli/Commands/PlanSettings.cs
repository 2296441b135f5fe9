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

    /// <summary>Path of an earlier plan.</summary>
    [CommandOption("--before <PLAN.json>")]
    [Description("An earlier plan, as 'plan --json' printed it: keep its blocks where they can stay and say what changes (docs/replan.md)")]
    public string? BeforePath { get; init; }

    /// <summary>What a moved block must gain.</summary>
    [CommandOption("--move-cost <POINTS>")]
    [Description("With --before: points of pass chance that moving a block must gain (default 0.5)")]
    public double? MoveCost { get; init; }

    /// <summary>Where to write the calendar file.</summary>
    [CommandOption("--ics <OUT.ics>")]
    [Description("Write the plan as a calendar file; importing that of a plan made with --before moves events, doubles none and cancels those that are gone")]
    public string? CalendarPath { get; init; }

    /// <summary>Where to write the handout.</summary>
    [CommandOption("--handout <OUT.html>")]
    [Description("Write a handout to print")]
    public string? HandoutPath { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat([BeforePath, CalendarPath, HandoutPath]);
}
