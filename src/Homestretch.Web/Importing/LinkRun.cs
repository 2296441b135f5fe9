using System.Collections.Immutable;

using Homestretch.Web.Uploads;

namespace Homestretch.Web.Importing;

/// <summary>Personal links that were made together, to show them once. The links themselves are among the fresh ones, and no longer than those.</summary>
/// <param name="Links">The cases with their people, and the names under which their links can be shown.</param>
public sealed record LinkRun(ImmutableArray<(string Key, string Candidate, string Made)> Links) : IDraft
{
    /// <inheritdoc/>
    public long Bytes => Links.Sum(l => 2L * (l.Key.Length + l.Candidate.Length + l.Made.Length));
}
