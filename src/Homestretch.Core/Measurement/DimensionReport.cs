using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>Whether the blueprint's topics are distinct in the data.</summary>
/// <param name="Persons">People behind the figures; with missing answers, behind the thinnest pair of items.</param>
/// <param name="Pairs">Every pair of topics.</param>
/// <param name="Topics">The value of each topic's own score.</param>
/// <param name="Summary">The finding as a sentence.</param>
public sealed record DimensionReport(int Persons, ImmutableArray<TopicPair> Pairs, ImmutableArray<SubscoreValue> Topics, string Summary);
