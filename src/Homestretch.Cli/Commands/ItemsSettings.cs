using System.ComponentModel;

using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>What <c>items</c> takes.</summary>
public sealed class ItemsSettings : DiagnosticSettings
{
    /// <summary>The model.</summary>
    [CommandOption("--model <MODEL>")]
    [Description("'rasch' (difficulty), '2pl' (difficulty and slope) or '3pl' (and guessing); default: the one that describes the answers best for the parameters it uses")]
    public string? Model { get; init; }

    /// <summary>Where to write the item bank.</summary>
    [CommandOption("--out <BANK.csv>")]
    [Description("Write the items as an item bank, for --bank of standing, forecast, plan and decide (docs/item-bank.md)")]
    public string? BankPath { get; init; }

    /// <summary>Whether labels mean the same items everywhere.</summary>
    [CommandOption("--any-test")]
    [Description("The labels mean the same items in every test: leave the bank's column 'test' empty")]
    public bool AnyTest { get; init; }

    /// <inheritdoc/>
    protected override IEnumerable<string?> Paths => base.Paths.Append(BankPath);
}
