using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>One person's evidence as likelihoods of the abilities, at any rate of learning.</summary>
/// <remarks>Where study is known, the abilities of the grid are those without it; a test's items meet them lifted by what study had left on the day of the test.
/// A topic without a test after study says the same at every rate and is looked at once. Cost with tests after study: their topics once more for every rate looked at.</remarks>
internal sealed class Likelihoods
{
    private readonly Exam exam;
    private readonly ILookup<string, DatedObservation> byTopic;
    private readonly LocalDate asOf;
    private readonly StandingAssumptions assumptions;
    private readonly ItemBank? bank;
    private readonly StudyHistory study;
    private readonly double formSd;
    private readonly AbilityGrid grid;
    private readonly ImmutableArray<ResponseCurve> curves;
    private readonly GaussianKernel topicPrior;
    private readonly (LocalDate Date, AttemptKind Kind)[][] testsAfterStudy;
    private readonly TopicTerm?[] known;

    public Likelihoods(
        Exam exam, ILookup<string, DatedObservation> byTopic, LocalDate asOf, StandingAssumptions assumptions, ItemBank? bank, StudyHistory study, double formSd)
    {
        this.exam = exam;
        this.byTopic = byTopic;
        this.asOf = asOf;
        this.assumptions = assumptions;
        this.bank = bank;
        this.study = study;
        this.formSd = formSd;
        grid = AbilityGrid.For(assumptions.MeanAbility, byTopic.Select(topic => topic.Sum(e => Sharpness(e, bank))).DefaultIfEmpty().Max());
        curves = [.. exam.Topics.Select(t => new ResponseCurve(t.Section.GuessChance, assumptions.TopicShifts.GetValueOrDefault(t.Name)))];
        topicPrior = new GaussianKernel(assumptions.TopicSd, grid.Step);
        testsAfterStudy = [.. exam.Topics.Select((topic, t) => byTopic[topic.Name].Where(e => Gain(t, e.Date, e.Kind) > 0).Select(e => (e.Date, e.Kind)).ToArray())];
        known = new TopicTerm?[exam.Topics.Length];
    }

    /// <summary>The joint posterior of today's abilities, and what is known of the rate of learning where there was study.</summary>
    public (AbilityPosterior Posterior, RateStanding? Rate) Join()
    {
        if (study.IsEmpty)
        {
            return (Posterior(0), null);
        }

        int tests = testsAfterStudy.SelectMany(t => t).Distinct().Count();
        (Node[] rates, RateStanding standing) = RatePosterior.Find(study.Learning, LogLikelihood);
        AbilityPosterior? same = tests == 0 ? Posterior(0) : null;
        RateStratum[] strata = Array.ConvertAll(rates, rate => new RateStratum(
            rate.At,
            rate.Weight,
            same ?? Posterior(rate.At),
            [.. exam.Topics.Select((_, t) => rate.At * study.Gain(t, asOf))]));
        return (AbilityPosterior.Mix(strata), standing with { Tests = tests });
    }

    /// <summary>What some of the evidence on a topic says of the ability without study, at one rate of learning.</summary>
    public ScaledLikelihood Of(int topic, IEnumerable<DatedObservation> evidence, double rate)
    {
        return TopicLikelihood.Build(evidence, asOf, curves[topic], grid, assumptions, bank, Lift);

        double Lift(LocalDate day, AttemptKind kind) => rate == 0 ? 0 : rate * Gain(topic, day, kind);
    }

    /// <summary>A topic's response curve for the ability without study, as study has moved it by now.</summary>
    public ResponseCurve CurveNow(int topic, double rate)
        => study.IsEmpty ? curves[topic] : curves[topic] with { Shift = curves[topic].Shift + (rate * study.Gain(topic, asOf)) };

    /// <summary>Log likelihood of all the evidence at one rate of learning, up to a constant.</summary>
    public double LogLikelihood(double rate)
    {
        TopicTerm[] all = Terms(rate);
        return all.Sum(t => t.Likelihood.LogScale) + AbilityPosterior.LogEvidence(grid, all, assumptions);
    }

    private AbilityPosterior Posterior(double rate) => AbilityPosterior.Build(grid, Terms(rate), curves, formSd, assumptions);

    private TopicTerm[] Terms(double rate) => [.. exam.Topics.Select((_, t) => testsAfterStudy[t].Length > 0 ? Term(t, rate) : known[t] ??= Term(t, rate))];

    private TopicTerm Term(int topic, double rate)
    {
        ScaledLikelihood likelihood = Of(topic, byTopic[exam.Topics[topic].Name], rate);
        return new TopicTerm(likelihood, AbilityPosterior.TopicLogs(grid, likelihood.Values, topicPrior));
    }

    // On one day the quiz comes after study, any other test before it.
    private double Gain(int topic, LocalDate day, AttemptKind kind) => study.Gain(topic, day, withDay: kind == AttemptKind.Quiz);

    // Steep items of a bank make a likelihood narrower than their number says; the grid has to be as fine.
    private static int Sharpness(DatedObservation evidence, ItemBank? bank)
        => bank?.Find(evidence) is { } item ? bank.Worth(item) : evidence.Observation.ItemCount;
}
