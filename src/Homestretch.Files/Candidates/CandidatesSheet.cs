using System.Collections.Immutable;

namespace Homestretch.Files.Candidates;

/// <summary>Who prepares, by when, and when each of them can study.</summary>
/// <param name="Rows">In the order of the file, those with problems among them.</param>
public sealed record CandidatesSheet(ImmutableArray<CandidateRow> Rows);
