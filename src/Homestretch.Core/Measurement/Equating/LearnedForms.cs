using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>Learns how tests differ from the exam where enough people took both.</summary>
public static class LearnedForms
{
    /// <summary>The same attempts; those of a test whose difference from the exam could be learned, and was not stated, carry it.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="attempts">Everybody's attempts: people who took a test by one name took one test, where it has the same number of items.</param>
    /// <param name="assumptions">The model's assumptions; the documented defaults when null.</param>
    public static ImmutableArray<Attempt> Apply(Exam exam, ImmutableArray<Attempt> attempts, StandingAssumptions? assumptions = null)
    {
        Dictionary<(string Name, int Items), FormDifference> learned = [];
        IEnumerable<string> tests = attempts.Where(a => a.Kind != AttemptKind.Official && a.Form is null).Select(a => a.Name.ToUpperInvariant()).Distinct();
        foreach (string test in tests)
        {
            BothTests both = BothTests.Find(attempts, a => IsOf(a, test), a => a.Kind == AttemptKind.Official);
            if (FormEstimate.Of(exam, both, secondIsExam: true, assumptions).Difference is { } difference)
            {
                learned.Add((test, both.FirstItems), difference);
            }
        }

        return learned.Count == 0
            ? attempts
            : [.. attempts.Select(a => a.Form is null && a.Kind != AttemptKind.Official && learned.TryGetValue((a.Name.ToUpperInvariant(), a.Observations.Sum(o => o.ItemCount)), out FormDifference? form)
                ? a with { Form = form }
                : a)];
    }

    private static bool IsOf(Attempt attempt, string test)
        => attempt.Kind != AttemptKind.Official && string.Equals(attempt.Name, test, StringComparison.OrdinalIgnoreCase);
}
