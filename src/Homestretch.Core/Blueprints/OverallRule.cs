namespace Homestretch.Core.Blueprints;

/// <summary>How the sections decide the whole exam.</summary>
public enum OverallRule
{
    /// <summary>Every section must reach its own cut score.</summary>
    EverySection,

    /// <summary>The correct answers of all sections together must reach one cut score.</summary>
    Total,

    /// <summary>One cut score for the total, and each section that has a cut score must reach that as its minimum.</summary>
    TotalWithSectionMinimums,
}
