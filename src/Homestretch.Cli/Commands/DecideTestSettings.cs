using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>decide test</c> takes.</summary>
public sealed class DecideTestSettings : CalendarSettings
{
    /// <summary>The topic of a quiz.</summary>
    [CommandOption("--topic <TOPIC>")]
    [Description("A quiz on this topic (default: another full practice exam)")]
    public string? Topic { get; init; }

    /// <summary>Items of the quiz.</summary>
    [CommandOption("--items <N>")]
    [Description("Items of the quiz, 1 to 200 (default: 10)")]
    public int? Items { get; init; }

    /// <summary>Minutes it takes.</summary>
    [CommandOption("--minutes <MINUTES>")]
    [Description("Minutes it takes with going over the answers, 1 to 1440 (default: the exam's time, or 75 seconds an item, and half as long again)")]
    public int? Minutes { get; init; }
}
