using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>Computes where a person stands from the blueprint and all evidence.</summary>
/// <remarks>The cost grows with topics times grid points times kernel width, not with the number of items answered.</remarks>
public static class StandingCalculator
{
    /// <summary>Beyond this many further items a band counts as not to be settled.</summary>
    public const int MostItemsToSettle = 60;

    private const double LowTail = 0.05;
    private const double HighTail = 0.95;

    // A part is worth a hint when it is weak with this chance at least, and that much likelier than its topic.
    private const double HoleFrom = 1.0 / 3;
    private const double HoleTimesTopic = 2;

    /// <summary>The standing of one person.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="attempts">That person's attempts; every topic they name is in the exam. None at all gives the prior.</param>
    /// <param name="asOf">The day to speak of. Evidence dated later counts as of that day.</param>
    /// <param name="assumptions">The model's assumptions; the documented defaults when null.</param>
    /// <param name="bank">Calibrated items: answers to them enter with their own curves. Answers to others count as to an average item.</param>
    /// <param name="study">The study that person has done, if known: tests taken after it then say how fast the person learns. Study after <paramref name="asOf"/> is left out;
    /// study on the day of a test comes before a quiz and after any other test.</param>
    /// <exception cref="ArgumentException">An observation names a topic or subtopic that the exam does not have.</exception>
    public static CandidateStanding Calculate(
        Exam exam, ImmutableArray<Attempt> attempts, LocalDate asOf, StandingAssumptions? assumptions = null, ItemBank? bank = null, StudyHistory? study = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        assumptions ??= StandingAssumptions.Default;
        study = (study ?? StudyHistory.None).Until(exam, asOf);
        TestTaking taking = Taking(exam, attempts);
        ILookup<string, DatedObservation> byTopic = ByTopic(taking);
        Likelihoods likelihoods = new(exam, byTopic, asOf, assumptions, bank, study, FormSd(taking.Counted, assumptions));
        (AbilityPosterior posterior, RateStanding? rate) = likelihoods.Join();
        AbilityGrid grid = posterior.Grid;
        ImmutableArray<TopicStanding>.Builder topics = ImmutableArray.CreateBuilder<TopicStanding>(exam.Topics.Length);
        for (int t = 0; t < exam.Topics.Length; t++)
        {
            // Said of the exam's kind of items: where priors were learned on a test, its own items may be easier or harder.
            string name = exam.Topics[t].Name;
            ResponseCurve curve = posterior.ExamCurve(t, name);
            double[] marginal = Widen(posterior.Marginal(t), posterior.ExamShiftSd(name), grid);
            Level level = LevelOf(marginal, grid, curve, exam.Bands);
            topics.Add(new TopicStanding(
                exam.Topics[t],
                byTopic[exam.Topics[t].Name].Sum(e => e.Observation.ItemCount),
                level,
                ItemsToSettle.Find(level, marginal, grid, curve, exam.Bands, assumptions.FreshItemsSd),
                Subtopics(exam, t, [.. byTopic[exam.Topics[t].Name]], level, likelihoods, posterior, rate?.Median ?? 0))
            {
                Observed = ObservedShare.Of(byTopic[exam.Topics[t].Name].Select(e => e.Observation)),
            });
        }

        ImmutableArray<SectionStanding> sections = [.. exam.Sections.Select((section, s) => new SectionStanding(
            section,
            topics.Where(t => t.Topic.SectionIndex == s).Sum(t => t.EvidenceItems),
            SectionLevel.Of(exam, s, posterior)))];
        return new CandidateStanding(exam, asOf, topics.Sum(t => t.EvidenceItems), topics.MoveToImmutable(), sections, posterior)
        {
            Study = study,
            Rate = rate,
            CalibratedItems = byTopic.Sum(topic => topic.Count(e => bank?.Find(e) is not null)),
            Taking = taking,
        };
    }

    /// <summary>Only the joint posterior, without the figures for people: what forecasts of many people need.</summary>
    /// <inheritdoc cref="Calculate" path="/param"/>
    /// <inheritdoc cref="Calculate" path="/exception"/>
    public static AbilityPosterior PosteriorOf(
        Exam exam, ImmutableArray<Attempt> attempts, LocalDate asOf, StandingAssumptions assumptions, ItemBank? bank = null, StudyHistory? study = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(assumptions);
        study = (study ?? StudyHistory.None).Until(exam, asOf);
        TestTaking taking = Taking(exam, attempts);
        return new Likelihoods(exam, ByTopic(taking), asOf, assumptions, bank, study, FormSd(taking.Counted, assumptions)).Join().Posterior;
    }

    /// <summary>How well one person's tests fit each rate of learning: what a cohort's rates are estimated from.</summary>
    /// <inheritdoc cref="Calculate" path="/param"/>
    /// <param name="rates">Rates in logits per first hour on an average topic.</param>
    /// <inheritdoc cref="Calculate" path="/exception"/>
    /// <returns>Log likelihoods, up to a constant that is the same for all rates.</returns>
    public static double[] RateLogLikelihoods(
        Exam exam, ImmutableArray<Attempt> attempts, LocalDate asOf, StandingAssumptions assumptions, ItemBank? bank, StudyHistory study, IReadOnlyList<double> rates)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(assumptions);
        ArgumentNullException.ThrowIfNull(study);
        TestTaking taking = Taking(exam, attempts);
        Likelihoods likelihoods = new(exam, ByTopic(taking), asOf, assumptions, bank, study.Until(exam, asOf), FormSd(taking.Counted, assumptions));
        return [.. rates.Select(likelihoods.LogLikelihood)];
    }

    private static TestTaking Taking(Exam exam, ImmutableArray<Attempt> attempts)
    {
        RefuseUnknownNames(exam, attempts);
        return TestTaking.Of(exam, attempts);
    }

    private static ILookup<string, DatedObservation> ByTopic(TestTaking taking) => taking.Counted
        .SelectMany(a => a.Observations.Select(o => new DatedObservation(a.Date, a.Kind, a.Name, o) { Ease = a.Form?.Logits ?? 0 }))
        .ToLookup(e => e.Observation.Topic, StringComparer.Ordinal);

    private static double[] Widen(double[] density, double sd, AbilityGrid grid)
    {
        GaussianKernel kernel = new(sd, grid.Step);
        return kernel.SmoothWidening(density)[kernel.Reach..^kernel.Reach];
    }

    internal static Band BandOf(double chance, BandEdges edges)
        => chance < edges.WeakBelow ? Band.Weak : chance < edges.StrongFrom ? Band.Borderline : Band.Strong;

    private static Level LevelOf(double[] marginal, AbilityGrid grid, ResponseCurve curve, BandEdges edges)
    {
        double mean = 0;
        for (int i = 0; i < marginal.Length; i++)
        {
            mean += marginal[i] * curve.Chance(grid[i]);
        }

        MarginalAbility smooth = new(marginal, grid);
        double weak = smooth.ChanceBelow(curve.Ability(edges.WeakBelow));
        double notStrong = Math.Max(weak, smooth.ChanceBelow(curve.Ability(edges.StrongFrom)));
        return new Level(
            mean,
            curve.Chance(smooth.Quantile(LowTail)),
            curve.Chance(smooth.Quantile(HighTail)),
            BandOf(mean, edges),
            new BandChances(weak, notStrong - weak, 1 - notStrong));
    }

    // A subtopic's prior is what the other topics and the topic's other parts say of the topic, widened by the spread of subtopics. Study enters at the likeliest rate.
    private static ImmutableArray<SubtopicStanding> Subtopics(
        Exam exam,
        int topic,
        DatedObservation[] evidence,
        Level topicLevel,
        Likelihoods likelihoods,
        AbilityPosterior posterior,
        double rate)
    {
        ImmutableArray<SubtopicStanding>.Builder result = ImmutableArray.CreateBuilder<SubtopicStanding>();
        AbilityGrid grid = posterior.Grid;
        string name = exam.Topics[topic].Name;
        ResponseCurve curve = likelihoods.CurveNow(topic, rate);
        curve = curve with { Shift = curve.Shift + posterior.Assumptions.ExamShifts.GetValueOrDefault(name) };
        GaussianKernel spread = new(posterior.Assumptions.SubtopicSd, grid.Step);
        foreach (Subtopic subtopic in exam.Topics[topic].Topic.Subtopics)
        {
            DatedObservation[] own = Array.FindAll(evidence, e => e.Observation.Subtopic == subtopic.Name);
            if (own.Length == 0)
            {
                continue;
            }

            DatedObservation[] others = Array.FindAll(evidence, e => e.Observation.Subtopic != subtopic.Name);
            double[] prior = posterior.MarginalGiven(topic, likelihoods.Of(topic, others, rate).Values);
            double[] density = spread.SmoothWidening(prior)[spread.Reach..^spread.Reach];
            Spans.Multiply(density, likelihoods.Of(topic, own, rate).Values, density);
            Spans.Divide(density, Spans.Sum(density));
            Level level = LevelOf(Widen(density, posterior.ExamShiftSd(name), grid), grid, curve, exam.Bands);
            bool hole = topicLevel.Band != Band.Weak && level.Chances.Weak >= Math.Max(HoleFrom, HoleTimesTopic * topicLevel.Chances.Weak);
            result.Add(new SubtopicStanding(subtopic.Name, subtopic.Items, own.Sum(e => e.Observation.ItemCount), level, hole));
        }

        return result.ToImmutable();
    }

    /// <summary>Spread between the tests seen and the exam: tests of different origin mix in proportion to their items; where something is known of a test, that counts in the place of what is assumed of its kind.</summary>
    internal static double FormSd(IReadOnlyList<Attempt> attempts, StandingAssumptions assumptions)
    {
        double items = 0;
        double variance = 0;
        foreach (Attempt attempt in attempts)
        {
            double sd = attempt.Form?.Sd ?? (attempt.Kind == AttemptKind.Official ? assumptions.OfficialFormSd : assumptions.FormSd);
            double weight = attempt.Observations.Sum(o => o.ItemCount);
            items += weight;
            variance += weight * sd * sd;
        }

        return items == 0 ? assumptions.FormSd : Math.Sqrt(variance / items);
    }

    private static void RefuseUnknownNames(Exam exam, ImmutableArray<Attempt> attempts)
    {
        foreach (Observation observation in attempts.SelectMany(a => a.Observations).DistinctBy(o => (o.Topic, o.Subtopic)))
        {
            ExamTopic topic = exam.Topics.FirstOrDefault(t => t.Name == observation.Topic)
                ?? throw new ArgumentException($"The exam has no topic '{observation.Topic}'.", nameof(attempts));
            if (observation.Subtopic is { } name && topic.Topic.Subtopics.All(s => s.Name != name))
            {
                throw new ArgumentException($"Topic '{observation.Topic}' has no subtopic '{name}'.", nameof(attempts));
            }
        }
    }
}
