using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What every command about a person's time until the exam takes.</summary>
public class CalendarSettings : EvidenceSettings
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

    /// <summary>When study begins.</summary>
    [CommandOption("--from <TIME>")]
    [Description("When study begins, such as 2026-11-25T08:00 in the zone of the free-time file (default: now)")]
    public string? From { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat(BusyPaths).Append(FreePath);
}
