using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Measurement;

public class RatePriorEstimatorTests
{
    private static readonly LearningAssumptions Assumed = LearningAssumptions.Default;

    private static readonly Exam Exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 10));

    private static readonly StandingAssumptions NoFormEffects = StandingAssumptions.Default with { TopicFormSd = 0, DriftVariancePerDay = 0 };

    /// <summary>Simulated people (seed in the test) of known rates: the estimates lie within what their standard errors promise.</summary>
    [Theory]
    [InlineData(0.30, 0.3, 1)]
    [InlineData(0.08, 0.3, 2)]
    [InlineData(0.15, 0.8, 3)]
    public void Recovers_the_rates_of_simulated_people(double rate, double spread, int seed)
    {
        Random random = new(seed);
        double[] rates = RatePriorEstimator.Rates(Assumed);
        double[][] people = [.. Enumerable.Range(0, 120).Select(_ => Simulated(random, rate * Math.Exp(spread * Normal(random)), rates))];

        RatePrior prior = RatePriorEstimator.Estimate(Assumed, people);

        Assert.Equal(120, prior.Persons);
        Assert.InRange((prior.LogRate.Value - Math.Log(rate)) / prior.LogRate.StandardError, -3, 3);
        Assert.InRange(prior.LogRate.StandardError, 0.02, 0.25);
        Assert.InRange((prior.LogSd.Value - spread) / prior.LogSd.StandardError, -3, 3);
        LearningAssumptions learned = prior.ToAssumptions(Assumed);
        Assert.Equal((prior.RatePerHour, prior.LogSd.Value, Assumed.Spacing), (learned.RatePerHour, learned.RateLogSd, learned.Spacing));
    }

    [Fact]
    public void People_whose_tests_say_nothing_leave_the_assumptions_as_they_are()
    {
        double[] flat = [.. RatePriorEstimator.Rates(Assumed).Select(_ => 0.0)];

        RatePrior prior = RatePriorEstimator.Estimate(Assumed, [.. Enumerable.Repeat(flat, 20)]);

        Assert.Equal(Assumed.RatePerHour, prior.RatePerHour, 1e-3);
        Assert.Equal(Assumed.RateLogSd, prior.LogSd.Value, 1e-2);
    }

    [Fact]
    public void Everyone_far_slower_than_assumed_gives_finite_figures()
    {
        double[] slow = [.. RatePriorEstimator.Rates(Assumed).Select(r => -1000 * r)];

        RatePrior prior = RatePriorEstimator.Estimate(Assumed, [.. Enumerable.Repeat(slow, 50)]);

        Assert.True(prior.RatePerHour < 0.05 && double.IsFinite(prior.LogRate.Value) && prior.LogSd.Value is >= 0.1 and <= 1.6);
    }

    [Fact]
    public void Too_few_people_are_refused_in_words()
    {
        UnsuitableDataException refusal = Assert.Throws<UnsuitableDataException>(() => RatePriorEstimator.Estimate(Assumed, []));

        Assert.Contains("at least 10 people", refusal.Message, StringComparison.Ordinal);
    }

    // 40 items on each topic, eight hours on A over four days, 40 items again.
    private static double[] Simulated(Random random, double rate, double[] rates)
    {
        LocalDate now = SampleExams.Today;
        StudyHistory study = new(Exam, [.. Enumerable.Range(1, 4).Select(d => new StudySession("Someone", "A", now.PlusDays(-2 * d), 120, StudyKind.Teaching))], Assumed);
        double overall = Normal(random);
        double a = overall + (0.7 * Normal(random));
        double b = overall + (0.7 * Normal(random));
        int Right(double ability) => Enumerable.Range(0, 40).Count(_ => random.NextDouble() < 0.25 + (0.75 / (1 + Math.Exp(-ability))));
        return StandingCalculator.RateLogLikelihoods(
            Exam,
            [
                new Attempt("Someone", "first", AttemptKind.Diagnostic, now.PlusDays(-20), [TopicCount.Exact("A", Right(a), 40), TopicCount.Exact("B", Right(b), 40)]),
                new Attempt("Someone", "quiz", AttemptKind.Quiz, now, [TopicCount.Exact("A", Right(a + (rate * study.Gain(0, now))), 40)]),
            ],
            now,
            NoFormEffects,
            null,
            study,
            rates);
    }

    private static double Normal(Random random) => MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1);
}
