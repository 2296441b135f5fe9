using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Measurement.Equating;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Measurement;

/// <summary>What a person's standing rests on besides the person's own answers: the assumptions in force and why these, and the calibrated items.</summary>
/// <param name="Exam">The exam.</param>
/// <param name="Assumptions">The assumptions in force.</param>
/// <param name="Prior">What a cohort has taught; null where the documented defaults are in force.</param>
/// <param name="People">People with results of the test that most of them took; 0 where there is no cohort to learn from.</param>
/// <param name="Reason">Why these assumptions are in force, one sentence.</param>
/// <param name="Bank">Calibrated items; null where none were given.</param>
public sealed record StandingBasis(Exam Exam, StandingAssumptions Assumptions, CohortPrior? Prior, int People, string Reason, ItemBank? Bank)
{
    /// <summary>How the person's tests compare with the exam where that was stated or learned, in sentences; empty where it was not.</summary>
    public ImmutableArray<string> Forms { get; init; } = [];

    // Nine people in ten lie within this many standard deviations.
    private const double NineInTen = 1.645;

    /// <summary>Chooses the assumptions: learned from a cohort where it is large enough, otherwise the documented defaults.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="results">Everybody's attempts, whoever they are of; the person's own may be among them. Bands of a score report teach nothing.</param>
    /// <param name="bank">Calibrated items, where there are any.</param>
    /// <remarks>Priors are learned from one test: of those that enough people took, the one that covers most topics, then the one that most people took. A person who is one of the cohort adds one part in thirty or
    /// less to the priors, which is left as it is so that one room has one set of priors.</remarks>
    public static StandingBasis Of(Exam exam, IEnumerable<Attempt> results, ItemBank? bank = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(results);
        (string Name, Attempt[] Sittings)[] tests = [.. results
            .Where(a => !a.Observations.IsEmpty && a.Observations.All(o => o is ItemResponse or TopicCount { IsExact: true }))
            .GroupBy(a => a.Name, StringComparer.OrdinalIgnoreCase)
            .Select(t => (t.Key, FirstSittings(t)))];
        StandingBasis Defaults(int people, string reason) => new(exam, StandingAssumptions.Default, null, people, reason, bank);
        int most = tests.Select(t => t.Sittings.Length).DefaultIfEmpty().Max();
        if (most <= 1)
        {
            return Defaults(0, $"The usual assumptions are in use. Results of {CohortPriorEstimator.FewestPersons} or more people on one test would replace them.");
        }

        if (most < CohortPriorEstimator.FewestPersons)
        {
            return Defaults(most, $"The usual assumptions are in use: {most} people took '{tests.First(t => t.Sittings.Length == most).Name}', and learning from a cohort takes "
                + $"{CohortPriorEstimator.FewestPersons} on one test, so {CohortPriorEstimator.FewestPersons - most} are missing.");
        }

        (string name, Attempt[] sittings) = tests
            .Where(t => t.Sittings.Length >= CohortPriorEstimator.FewestPersons)
            .OrderByDescending(t => t.Sittings.SelectMany(s => s.Observations.Select(o => o.Topic)).Distinct(StringComparer.Ordinal).Count())
            .ThenByDescending(t => t.Sittings.Length)
            .First();
        if (ItemScores.Contradiction(sittings) is { } contradiction)
        {
            return Defaults(sittings.Length, $"The usual assumptions are in use: the sittings named '{name}' are not of one test, since {contradiction}.");
        }

        try
        {
            CohortPrior prior = CohortPriorEstimator.Estimate(CohortCounts.Of(exam, name, sittings));
            StandingAssumptions assumptions = prior.ToAssumptions(StandingAssumptions.Default, exam.Topics.Select(t => t.Name).Where(t => !prior.TopicMeans.ContainsKey(t)));

            // The cohort's abilities are those its test showed; where that is known to be easier than the exam, they are so much lower on the exam's scale.
            double ease = sittings.Select(s => s.Form?.Logits).FirstOrDefault(f => f is not null) ?? 0;
            assumptions = assumptions with { MeanAbility = assumptions.MeanAbility - ease };
            return new StandingBasis(exam, assumptions, prior, prior.Persons, Learned(exam, prior, assumptions), bank);
        }
        catch (UnsuitableDataException e)
        {
            return Defaults(sittings.Length, $"The usual assumptions are in use, although {sittings.Length} people took '{name}'. {e.Message}");
        }
    }

    /// <summary>The same, which also says how one person's tests compare with the exam.</summary>
    /// <param name="attempts">The person's attempts.</param>
    public StandingBasis For(IEnumerable<Attempt> attempts) => this with { Forms = FormSentences.Of(Exam, attempts) };

    /// <summary>The standing of one person.</summary>
    /// <inheritdoc cref="StandingCalculator.Calculate" path="/param"/>
    /// <inheritdoc cref="StandingCalculator.Calculate" path="/exception"/>
    public CandidateStanding Standing(ImmutableArray<Attempt> attempts, LocalDate asOf, StudyHistory? study = null)
        => StandingCalculator.Calculate(Exam, attempts, asOf, Assumptions, Bank, study);

    /// <summary>What is in use, in sentences for whoever reads a person's figures.</summary>
    /// <param name="standing">A standing that rests on this.</param>
    public ImmutableArray<string> Sentences(CandidateStanding standing)
    {
        ArgumentNullException.ThrowIfNull(standing);
        return Bank is null ? [Reason, .. Forms] : [Reason, .. Forms, Calibrated(standing.CalibratedItems, standing.EvidenceItems, Bank.Items.Length)];
    }

    private static string Calibrated(int own, int all, int items)
        => own == 0 ? $"None of the {all} answers is to an item of the bank, which holds {items}: topic, item and test must be spelt alike in both."
        : own == all ? $"All {all} answers counted with their own calibrated items."
        : $"{own} of {all} answers counted with their own calibrated items, the others as answers to average items.";

    private static string Learned(Exam exam, CohortPrior prior, StandingAssumptions assumptions)
    {
        // On the exam, all topics moving together.
        double Share(double sds) => exam.Topics.Sum(t => t.Items * new ResponseCurve(
            t.Section.GuessChance,
            assumptions.TopicShifts.GetValueOrDefault(t.Name) + assumptions.ExamShifts.GetValueOrDefault(t.Name)).Chance(assumptions.MeanAbility + (sds * assumptions.AbilitySd))) / exam.ScoredItems;
        return string.Create(
            CultureInfo.InvariantCulture,
            $"Learned from the {prior.Persons} people who took '{prior.Test}', in place of the usual assumptions: before their answers are seen, such people are expected to get about {Share(0) * 100:0} % of the exam's items right, nine in ten of them between {Share(-NineInTen) * 100:0} and {Share(NineInTen) * 100:0} %.");
    }

    // A second sitting meets known items.
    private static Attempt[] FirstSittings(IEnumerable<Attempt> sittings)
        => [.. sittings.OrderBy(s => s.Date).DistinctBy(s => s.Candidate, StringComparer.OrdinalIgnoreCase)];
}
