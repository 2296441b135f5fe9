using System.Collections.Immutable;

using Homestretch.Core.Planning.Resources;

namespace Homestretch.Files.Resources;

/// <summary>What there is to study from.</summary>
/// <param name="Resources">In the order of the files.</param>
public sealed record ResourceCatalogue(ImmutableArray<StudyResource> Resources);
