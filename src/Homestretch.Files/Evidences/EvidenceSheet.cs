using System.Collections.Immutable;

using Homestretch.Core.Evidence;

namespace Homestretch.Files.Evidences;

/// <summary>What evidence files say: attempts of one or several candidates.</summary>
/// <param name="Attempts">In the order in which the files first name them.</param>
public sealed record EvidenceSheet(ImmutableArray<Attempt> Attempts)
{
    /// <summary>Distinct candidates in order of appearance.</summary>
    public ImmutableArray<string> Candidates => [.. Attempts.Select(a => a.Candidate).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>The attempts of one candidate, whose name is compared without regard to case.</summary>
    public ImmutableArray<Attempt> AttemptsOf(string candidate) =>
        [.. Attempts.Where(a => string.Equals(a.Candidate, candidate, StringComparison.OrdinalIgnoreCase))];
}
