using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>plan</c> takes.</summary>
public sealed class PlanSettings : EvidenceSettings
{
    /// <summary>Path of the free-time file.</summary>
    [CommandOption("--free <FREE.yaml>")]
    [Description("The person's free time: windows, days off, daily cap, zone (docs/free-time-file.md); required")]
    public string? FreePath { get; init; }

    /// <summary>Paths of calendars.</summary>
    [CommandOption("--busy <BUSY.ics>")]
    [Description("The person's calendar; may be given several times")]
    public string[] BusyPaths { get; init; } = [];

    /// <summary>The day of the exam.</summary>
    [CommandOption("--exam-day <DATE>")]
    [Description("The day of the exam, such as 2026-12-16; required")]
    public string? ExamDay { get; init; }

    /// <summary>When the plan begins.</summary>
    [CommandOption("--from <TIME>")]
    [Description("When the plan begins, such as 2026-11-25T08:00 in the zone of the free-time file (default: now)")]
    public string? From { get; init; }

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
    protected override IEnumerable<string?> Paths => base.Paths.Concat(BusyPaths).Concat([FreePath, CalendarPath, HandoutPath]);
}
