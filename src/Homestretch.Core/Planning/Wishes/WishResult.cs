using System.Collections.Immutable;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>A plan that obeys every wish, or why there is none.</summary>
/// <param name="Plan">The plan; null where the wishes cannot be obeyed.</param>
/// <param name="Refusals">Why not, one sentence each; empty where there is a plan.</param>
public readonly record struct WishResult(StudyPlan? Plan, ImmutableArray<string> Refusals);
