using System.Collections.Immutable;

namespace Homestretch.Core.Blueprints;

/// <summary>A subject area of a blueprint.</summary>
/// <param name="Name">Unique in the exam.</param>
/// <param name="Weight">As published.</param>
/// <param name="Items">Scored items of its section that belong to it, zero or more.</param>
/// <param name="Subtopics">Its parts, if published; their items sum to <paramref name="Items"/>.</param>
public sealed record Topic(string Name, Weight Weight, int Items, ImmutableArray<Subtopic> Subtopics);
