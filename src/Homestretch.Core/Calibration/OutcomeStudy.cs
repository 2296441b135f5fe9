using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using NodaTime.Text;

namespace Homestretch.Core.Calibration;

/// <summary>Compares what would have been forecast for people with what came of it: one outcome per person, forecast from everything dated before it.</summary>
/// <remarks>The forecast is of the outcome as it was: a practice exam of 60 items is forecast as 60 items, with the exam's mark as the same share. Priors are learned
/// from the room's tests before the outcomes where there are people enough, as elsewhere in the program. No study between the last evidence and the outcome is counted.</remarks>
public static class OutcomeStudy
{
    /// <summary>With fewer people than this nothing is said.</summary>
    public const int FewestPeople = 10;

    private const double Tail = 0.05;

    /// <summary>Runs the comparison on all processors.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="attempts">Everyone's attempts.</param>
    /// <param name="outcome">Name of the attempts that count as the outcome; null: those of kind official. A person's first such attempt with anything dated before it counts.</param>
    /// <param name="progress">Told the people done.</param>
    /// <param name="cancellation">Stops the work between people.</param>
    public static OutcomeStudyResult Run(
        Exam exam,
        IEnumerable<Attempt> attempts,
        string? outcome = null,
        IProgress<int>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(attempts);
        object[] verdicts = [.. attempts.GroupBy(a => a.Candidate, StringComparer.OrdinalIgnoreCase).Select(g => Judge(exam, [.. g.OrderBy(a => a.Date)], outcome))];
        Judged[] judged = [.. verdicts.OfType<Judged>()];

        // What the program would have learned from the room by then: from everybody's tests, never from an outcome.
        StandingBasis basis = StandingBasis.Of(exam, judged.SelectMany(j => j.Before));
        PersonOutcome[] people = new PersonOutcome[judged.Length];
        int done = 0;
        Parallel.For(0, judged.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            people[i] = Forecast(exam, judged[i], basis.Assumptions);
            progress?.Report(Interlocked.Increment(ref done));
        });
        ImmutableArray<double> passes = Passes(people);
        return new OutcomeStudyResult(
            [.. people],
            [.. verdicts.OfType<LeftOutPerson>()],
            basis,
            judged.Count(j => !ReferenceEquals(j.Tested, exam)),
            people.Length < FewestPeople ? null : CalibrationTable.Of([.. people.Select((p, i) => new ForecastCase(p.PassChance, p.Passed, i, i))]),
            people.Count(p => p.Passed),
            people.Sum(p => p.PassChance),
            CountQuantile.Of(passes, Tail),
            CountQuantile.Of(passes, 1 - Tail));
    }

    // What counts for a person with an outcome, or why there is none.
    private static object Judge(Exam exam, ImmutableArray<Attempt> attempts, string? outcome)
    {
        string name = attempts[0].Candidate;
        Attempt[] outcomes =
            [.. attempts.Where(a => outcome is null ? a.Kind == AttemptKind.Official : string.Equals(a.Name, outcome, StringComparison.OrdinalIgnoreCase))];
        if (outcomes.Length == 0)
        {
            return new LeftOutPerson(name, LeftOutReason.NoOutcome, "");
        }

        // Attempts stand in the order of their days, so the first of all is before an outcome or nothing is.
        if (outcomes.FirstOrDefault(o => attempts[0].Date < o.Date) is not { } result)
        {
            return new LeftOutPerson(name, LeftOutReason.NothingBefore, LocalDatePattern.Iso.Format(outcomes[0].Date));
        }

        int[] items = [.. exam.Topics.Select(t => result.Observations.Where(o => o.Topic == t.Name).Sum(o => o.ItemCount))];
        if (exam.Topics.Where((t, i) => items[i] == 0 && t.Topic.Items > 0).FirstOrDefault() is { } missing)
        {
            return new LeftOutPerson(name, LeftOutReason.Incomplete, missing.Name);
        }

        Exam tested = TestedExam.Of(exam, items);
        PassRule rule = new(tested);
        bool passed = rule.Passes(BySection(exam, result, o => o is TopicCount count ? count.LowCorrect : o is ItemResponse { Correct: true } ? 1 : 0));
        return !passed && rule.Passes(BySection(exam, result, o => o is TopicCount count ? count.HighCorrect : o is ItemResponse { Correct: true } ? 1 : 0))
            ? new LeftOutPerson(name, LeftOutReason.Ambiguous, result.Name)
            : new Judged(result, [.. attempts.Where(a => a.Date < result.Date)], tested, passed);
    }

    private static PersonOutcome Forecast(Exam exam, Judged person, StandingAssumptions assumptions)
    {
        AbilityPosterior posterior = StandingCalculator.PosteriorOf(exam, person.Before, person.Result.Date, assumptions);
        double chance = new ScoreModel(person.Tested, posterior).Outcome(new double[exam.Topics.Length]).PassChance;
        int items = person.Before.Sum(a => a.Observations.Sum(o => o.ItemCount));
        return new PersonOutcome(person.Before[0].Candidate, person.Result.Name, person.Result.Date, items, chance, person.Passed);
    }

    private static int[] BySection(Exam exam, Attempt attempt, Func<Observation, int> correct)
    {
        int[] sums = new int[exam.Sections.Length];
        foreach (ExamTopic topic in exam.Topics)
        {
            sums[topic.SectionIndex] += attempt.Observations.Where(o => o.Topic == topic.Name).Sum(correct);
        }

        return sums;
    }

    // The distribution of the number of passes: one convolution per person.
    private static ImmutableArray<double> Passes(PersonOutcome[] people)
    {
        double[] passes = [1.0];
        foreach (PersonOutcome person in people)
        {
            passes = Convolution.Of(passes, [1 - person.PassChance, person.PassChance]);
        }

        return [.. passes];
    }

    private sealed record Judged(Attempt Result, ImmutableArray<Attempt> Before, Exam Tested, bool Passed);
}
