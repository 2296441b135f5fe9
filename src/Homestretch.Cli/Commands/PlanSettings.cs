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

    /// <summary>Topics to leave out.</summary>
    [CommandOption("--avoid <TOPIC>")]
    [Description("Give this topic no block, whatever that costs; may be given several times (docs/wishes.md)")]
    public string[] Avoid { get; init; } = [];

    /// <summary>Topics to bring in.</summary>
    [CommandOption("--include <TOPIC>")]
    [Description("Give this topic a block to learn and a short quiz at least; may be given several times")]
    public string[] Include { get; init; } = [];

    /// <summary>Topics with a least number of minutes.</summary>
    [CommandOption("--at-least <TOPIC=MINUTES>")]
    [Description("Give this topic so many minutes at least, such as 'Cataloguing=120'; may be given several times")]
    public string[] AtLeast { get; init; } = [];

    /// <summary>Blocks at a given time.</summary>
    [CommandOption("--pin <START=TOPIC>")]
    [Description("Put a block on this topic at this time, such as '2026-11-28T10:00=Cataloguing'; may be given several times")]
    public string[] Pins { get; init; } = [];

    /// <summary>Path of the catalogue of resources.</summary>
    [CommandOption("--resources <RESOURCES.csv>")]
    [Description("What there is to study from (docs/resources.md): each block gets its part, and topics without material that teaches are named")]
    public string? ResourcesPath { get; init; }

    /// <summary>Where to write the calendar file.</summary>
    [CommandOption("--ics <OUT.ics>")]
    [Description("Write the plan as a calendar file; importing that of a plan made with --before moves events, doubles none and cancels those that are gone")]
    public string? CalendarPath { get; init; }

    /// <summary>Where to write the handout.</summary>
    [CommandOption("--handout <OUT.html>")]
    [Description("Write a handout to print")]
    public string? HandoutPath { get; init; }

    /// <summary>Where to write the handout as a PDF.</summary>
    [CommandOption("--pdf <OUT.pdf>")]
    [Description("Write the handout as a PDF; needs Chromium, Google Chrome or Microsoft Edge on this computer (HOMESTRETCH_CHROMIUM names another)")]
    public string? PdfPath { get; init; }

    /// <summary>The paper of the PDF.</summary>
    [CommandOption("--paper <PAPER>")]
    [Description("With --pdf: 'a4' (default) or 'letter'")]
    public string? Paper { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Concat([BeforePath, ResourcesPath, CalendarPath, HandoutPath, PdfPath]);
}
