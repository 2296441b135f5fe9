namespace Homestretch.Core.AdaptiveTesting;

/// <summary>How a diagnostic chooses its items, and when it ends.</summary>
/// <remarks>The defaults are assumptions of ours; docs/measurement.md shows what they cost.</remarks>
public sealed record DiagnosticRules
{
    /// <summary>The documented defaults.</summary>
    public static DiagnosticRules Default { get; } = new();

    /// <summary>What the items are to find out.</summary>
    public DiagnosticTarget Target { get; init; } = DiagnosticTarget.PassChance;

    /// <summary>Items that are given in any case, as long as the bank has them.</summary>
    public int AtLeast { get; init; } = 8;

    /// <summary>Items after which it ends in any case.</summary>
    public int AtMost { get; init; } = 30;

    /// <summary>An item that more than this share of the other people have been given is held back; 1 for no limit.</summary>
    public double MostExposure { get; init; } = 0.5;

    /// <summary>The limit on exposure holds from so many other people on; with fewer a share says nothing.</summary>
    public int ExposureFromPeople { get; init; } = 5;

    /// <summary>The item is drawn from so many best ones, so that neighbours do not get the same items (Kingsbury &amp; Zara 1989); 1 for always the best.</summary>
    public int AmongBest { get; init; } = 5;

    /// <summary>An item is among the best only with at least this share of the best one's information.</summary>
    public double NearlyBest { get; init; } = 0.75;

    /// <summary>Items by which a topic may run ahead of its share of the blueprint, or fall behind it, when the target is the pass chance.</summary>
    public double BlueprintSlack { get; init; } = 2;

    /// <summary>It ends when no item is expected to move the pass chance (or, together, the chances of the levels) by this much.</summary>
    public double LeastChange { get; init; } = 0.01;
}
