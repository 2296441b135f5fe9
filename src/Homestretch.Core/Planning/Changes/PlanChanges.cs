using System.Collections.Immutable;

namespace Homestretch.Core.Planning.Changes;

/// <summary>What would change a plan, in sentences a candidate understands.</summary>
/// <param name="Blocks">For each block in time order: what it is worth against the next best use of its time, and which quiz result would give that time to another topic.</param>
/// <param name="Topics">For each topic of the exam, by name: which quiz result, and how many more or fewer hours a week, would bring it into the plan or take it out.</param>
public sealed record PlanChanges(ImmutableArray<BlockChange> Blocks, ImmutableDictionary<string, TopicChange> Topics);
