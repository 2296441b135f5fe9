using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Measurement;

/// <summary>How fast people are taken to learn before their own tests are seen, and why.</summary>
/// <param name="Learning">The assumptions in force.</param>
/// <param name="Prior">What a cohort has taught; null where the documented defaults are in force.</param>
/// <param name="People">People with study and a test after it.</param>
/// <param name="Reason">Why these assumptions are in force, one sentence.</param>
public sealed record LearningBasis(LearningAssumptions Learning, RatePrior? Prior, int People, string Reason)
{
    /// <summary>Chooses the assumptions: learned from everybody with study and a test after it where they are enough, otherwise as given.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="results">Everybody's attempts, whoever they are of; the person's own may be among them.</param>
    /// <param name="study">Everybody's study. Names are compared without regard to case.</param>
    /// <param name="assumptions">The assumptions on abilities; the documented defaults when null.</param>
    /// <param name="bank">Calibrated items, where there are any.</param>
    /// <param name="learning">What is assumed to begin with; the documented defaults when null.</param>
    /// <exception cref="ArgumentException">An attempt or session names a topic that the exam does not have.</exception>
    public static LearningBasis Of(
        Exam exam,
        IEnumerable<Attempt> results,
        IEnumerable<StudySession> study,
        StandingAssumptions? assumptions = null,
        ItemBank? bank = null,
        LearningAssumptions? learning = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(results);
        ArgumentNullException.ThrowIfNull(study);
        assumptions ??= StandingAssumptions.Default;
        learning ??= LearningAssumptions.Default;
        ILookup<string, StudySession> sessions = study.ToLookup(s => s.Candidate, StringComparer.OrdinalIgnoreCase);
        (ImmutableArray<Attempt> Attempts, StudyHistory Study)[] informed = [.. results
            .GroupBy(a => a.Candidate, StringComparer.OrdinalIgnoreCase)
            .Where(p => sessions.Contains(p.Key))
            .Select(p => (Attempts: p.ToImmutableArray(), Study: new StudyHistory(exam, [.. sessions[p.Key]], learning)))
            .Where(p => TestedAfterStudy(exam, p.Attempts, p.Study))];
        if (informed.Length < RatePriorEstimator.FewestPersons)
        {
            return new(learning, null, informed.Length, string.Create(
                CultureInfo.InvariantCulture,
                $"How fast people learn is assumed: learning it from a cohort takes {RatePriorEstimator.FewestPersons} people with study and a test after it, and there {(informed.Length == 1 ? "is 1" : $"are {informed.Length}")}."));
        }

        double[] rates = RatePriorEstimator.Rates(learning);
        RatePrior prior = RatePriorEstimator.Estimate(learning, [.. informed
            .AsParallel().AsOrdered()
            .Select(p => StandingCalculator.RateLogLikelihoods(exam, p.Attempts, LastDay(p.Attempts), assumptions, bank, p.Study, rates))]);
        return new(prior.ToAssumptions(learning), prior, prior.Persons, string.Create(
            CultureInfo.InvariantCulture,
            $"How fast people learn was learned from the {prior.Persons} people with study and a test after it: a usual rate of {prior.RatePerHour / learning.RatePerHour:0.0#} times the assumed one."));
    }

    private static LocalDate LastDay(ImmutableArray<Attempt> attempts) => attempts.Max(a => a.Date);

    private static bool TestedAfterStudy(Exam exam, ImmutableArray<Attempt> attempts, StudyHistory study)
        => attempts.Any(a => a.Observations.Any(o => study.Gain(exam.Topics.Index().First(t => t.Item.Name == o.Topic).Index, a.Date, withDay: a.Kind == AttemptKind.Quiz) > 0));
}
