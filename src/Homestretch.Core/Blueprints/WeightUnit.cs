namespace Homestretch.Core.Blueprints;

/// <summary>What a published weight counts.</summary>
public enum WeightUnit
{
    /// <summary>Scored items.</summary>
    Items,

    /// <summary>Percent of the scored items of the section (of the topic, for a subtopic).</summary>
    Percent,
}
