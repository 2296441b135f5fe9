using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>decide hours</c> takes.</summary>
public sealed class DecideHoursSettings : CalendarSettings
{
    /// <summary>Hours a week to compare.</summary>
    [CommandOption("--hours <HOURS>")]
    [Description("Hours a week to compare with those there are, 0 to 80; may be given several times (default: half, three quarters, and 2, 4 and 6 more)")]
    public double[] Hours { get; init; } = [];
}
