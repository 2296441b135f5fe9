using System.Collections.Immutable;

using Homestretch.Web.Uploads;

namespace Homestretch.Web.Importing;

/// <summary>Cases that were imported together, to show how far their first plans are.</summary>
/// <param name="Cases">The cases with their people.</param>
public sealed record ImportRun(ImmutableArray<(string Key, string Candidate)> Cases) : IDraft
{
    /// <inheritdoc/>
    public long Bytes => Cases.Sum(c => 2L * (c.Key.Length + c.Candidate.Length));
}
