namespace Homestretch.Core.Blueprints;

/// <summary>A part of a topic.</summary>
/// <param name="Name">Unique within its topic.</param>
/// <param name="Weight">As published, or null where the blueprint lists the subtopic without a weight.</param>
/// <param name="Items">Scored items: the topic's items shared out by weight (equal shares where no weight is published).</param>
public sealed record Subtopic(string Name, Weight? Weight, int Items);
