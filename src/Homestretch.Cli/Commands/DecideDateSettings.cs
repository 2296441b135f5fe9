using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>decide date</c> takes.</summary>
public sealed class DecideDateSettings : CalendarSettings
{
    /// <summary>Dates to compare.</summary>
    [CommandOption("--date <DATE>")]
    [Description("Another date to compare; may be given several times (default: the exam day and the same weekday of the next weeks)")]
    public string[] Dates { get; init; } = [];

    /// <summary>Weeks to look ahead.</summary>
    [CommandOption("--weeks <N>")]
    [Description("Weeks after the exam day to look at where no --date is given, 0 to 52")]
    [DefaultValue(8)]
    public int Weeks { get; init; } = 8;

    /// <summary>The pass chance that is good enough.</summary>
    [CommandOption("--target <PERCENT>")]
    [Description("The pass chance that is good enough, 1 to 99")]
    [DefaultValue(80)]
    public int Target { get; init; } = 80;

    /// <summary>Fee for moving.</summary>
    [CommandOption("--postpone-fee <MONEY>")]
    [Description("Fee for moving the booked date")]
    public decimal? PostponeFee { get; init; }

    /// <summary>Fee for sitting again.</summary>
    [CommandOption("--retake-fee <MONEY>")]
    [Description("Fee for sitting again after failing")]
    public decimal? RetakeFee { get; init; }

    /// <summary>Last day to move.</summary>
    [CommandOption("--postpone-until <DATE>")]
    [Description("Last day on which the booked date can be moved")]
    public string? PostponeUntil { get; init; }

    /// <summary>Last day to sit.</summary>
    [CommandOption("--last-date <DATE>")]
    [Description("Last day on which the exam may be sat")]
    public string? LastDate { get; init; }
}
