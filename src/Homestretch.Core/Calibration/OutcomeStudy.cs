using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

using NodaTime.Text;

namespace Homestretch.Core.Calibration;

/// <summary>Compares what would have been forecast for people with what came of it: one outcome per person, forecast from everything dated before it.</summary>
/// <remarks>The forecast is of the outcome as it was: a practice exam of 60 items is forecast as 60 items, with the exam's mark as the same share. No study
/// between the last evidence and the outcome is counted.</remarks>
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
        ImmutableArray<Attempt>[] byPerson = [.. attempts.GroupBy(a => a.Candidate, StringComparer.OrdinalIgnoreCase).Select(g => g.OrderBy(a => a.Date).ToImmutableArray())];
        object[] verdicts = new object[byPerson.Length];
        bool[] otherLength = new bool[byPerson.Length];
        int done = 0;
        Parallel.For(0, byPerson.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            verdicts[i] = Judge(exam, byPerson[i], outcome, out otherLength[i]);
            progress?.Report(Interlocked.Increment(ref done));
        });
        ImmutableArray<PersonOutcome> people = [.. verdicts.OfType<PersonOutcome>()];
        double[] passes = Passes(people);
        return new OutcomeStudyResult(
            people,
            [.. verdicts.OfType<LeftOutPerson>()],
            otherLength.Count(o => o),
            people.Length < FewestPeople ? null : CalibrationTable.Of([.. people.Select((p, i) => new ForecastCase(p.PassChance, p.Passed, i, i))]),
            people.Count(p => p.Passed),
            people.Sum(p => p.PassChance),
            Quantile(passes, Tail),
            Quantile(passes, 1 - Tail));
    }

    private static object Judge(Exam exam, ImmutableArray<Attempt> attempts, string? outcome, out bool otherLength)
    {
        otherLength = false;
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
        if (!passed && rule.Passes(BySection(exam, result, o => o is TopicCount count ? count.HighCorrect : o is ItemResponse { Correct: true } ? 1 : 0)))
        {
            return new LeftOutPerson(name, LeftOutReason.Ambiguous, result.Name);
        }

        otherLength = !ReferenceEquals(tested, exam);
        ImmutableArray<Attempt> before = [.. attempts.Where(a => a.Date < result.Date)];
        AbilityPosterior posterior = StandingCalculator.PosteriorOf(exam, before, result.Date, StandingAssumptions.Default);
        double chance = new ScoreModel(tested, posterior).Outcome(new double[tested.Topics.Length]).PassChance;
        return new PersonOutcome(name, result.Name, result.Date, before.Sum(a => a.Observations.Sum(o => o.ItemCount)), chance, passed);
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
    private static double[] Passes(ImmutableArray<PersonOutcome> people)
    {
        double[] passes = [1.0];
        foreach (PersonOutcome person in people)
        {
            passes = Convolution.Of(passes, [1 - person.PassChance, person.PassChance]);
        }

        return passes;
    }

    private static int Quantile(double[] distribution, double share)
    {
        double below = 0;
        int count = 0;
        while (count < distribution.Length - 1 && (below += distribution[count]) < share)
        {
            count++;
        }

        return count;
    }
}
