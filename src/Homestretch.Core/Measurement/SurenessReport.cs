using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>What 'how sure' marks say about a test's results.</summary>
/// <param name="Levels">Share correct by sureness, from unsure to sure; empty levels are left out.</param>
/// <param name="Persons">People who gave marks.</param>
/// <param name="Summary">The finding as a sentence.</param>
public sealed record SurenessReport(ImmutableArray<SurenessLevel> Levels, ImmutableArray<PersonSureness> Persons, string Summary);
