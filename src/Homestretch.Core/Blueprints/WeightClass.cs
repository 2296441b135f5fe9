namespace Homestretch.Core.Blueprints;

/// <summary>A topic's share of the exam's items against an equal share (common practice, no source).</summary>
public enum WeightClass
{
    /// <summary>At most 0.75 of an equal share.</summary>
    Light,

    /// <summary>Between light and heavy.</summary>
    Moderate,

    /// <summary>At least 1.25 of an equal share.</summary>
    Heavy,
}
