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

    /// <summary>This evidence and other people's beside it. An attempt that both hold counts once, as it stands here; how a test compares with the exam, where only one of them says it, holds in both.</summary>
    /// <param name="others">More evidence; null for none.</param>
    public EvidenceSheet With(EvidenceSheet? others)
    {
        if (others is null)
        {
            return this;
        }

        HashSet<(string, string)> own = [.. Attempts.Select(Label)];
        Attempt[] all = [.. Attempts, .. others.Attempts.Where(a => !own.Contains(Label(a)))];
        Dictionary<string, FormDifference> stated = new(StringComparer.OrdinalIgnoreCase);
        foreach (Attempt attempt in Attempts.Concat(others.Attempts))
        {
            if (attempt.Form is { } form)
            {
                stated.TryAdd(attempt.Name, form);
            }
        }

        return new EvidenceSheet([.. all.Select(a => stated.TryGetValue(a.Name, out FormDifference? form) && a.Form is null ? a with { Form = form } : a)]);

        static (string, string) Label(Attempt attempt) => (attempt.Candidate.ToUpperInvariant(), attempt.Name.ToUpperInvariant());
    }
}
