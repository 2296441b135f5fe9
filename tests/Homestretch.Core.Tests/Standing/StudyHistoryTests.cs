using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Standing;

/// <summary>What tests taken after study say of abilities and of the rate of learning.</summary>
public class StudyHistoryTests
{
    private const string Person = "Mara Venn";

    private static readonly StandingAssumptions NoFormEffects = StandingAssumptions.Default with { TopicFormSd = 0, FormSd = 0, OfficialFormSd = 0, DriftVariancePerDay = 0 };

    private static readonly Exam Small = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 20));

    private static readonly LocalDate Now = SampleExams.Today;

    private static StudyHistory Studied(int minutes, int daysAgo = 3, Exam? exam = null)
        => new(exam ?? Small, [new StudySession(Person, "A", Now.PlusDays(-daysAgo), minutes, StudyKind.Teaching), new StudySession(Person, "A", Now.PlusDays(-1), minutes, StudyKind.PracticeItems)]);

    private static ImmutableArray<Attempt> Tests(int before, int after) =>
    [
        new Attempt(Person, "first", AttemptKind.Diagnostic, Now.PlusDays(-6), [TopicCount.Exact("A", before, 12), TopicCount.Exact("B", 9, 14)]),
        new Attempt(Person, "quiz", AttemptKind.Quiz, Now, [TopicCount.Exact("A", after, 12)]),
    ];

    [Theory]
    [InlineData(4, 11)]
    [InlineData(6, 6)]
    [InlineData(10, 3)]
    public void Standing_rate_and_forecast_equal_brute_force_integration(int before, int after)
    {
        StudyHistory study = Studied(240);
        CandidateStanding standing = StandingCalculator.Calculate(Small, Tests(before, after), Now, NoFormEffects, study: study);
        ScoreModel model = new(standing);
        double[] planned = [model.EffortNow[0] + 2, 1.5];
        ScoreOutcome later = model.Outcome(planned);

        // Every point of (log rate, A, B) on a lattice; A and B are normal with the overall ability's variance in common.
        const double Step = 0.1;
        double[] lattice = [.. Enumerable.Range(0, 121).Select(i => -6 + (i * Step))];
        double own = Math.Pow(NoFormEffects.AbilitySd, 2) + Math.Pow(NoFormEffects.TopicSd, 2);
        double rho = Math.Pow(NoFormEffects.AbilitySd, 2) / own;
        double gainNow = study.Gain(0, Now);
        double total = 0, meanA = 0, logRate = 0, pass = 0, passNow = 0;
        for (double z = -4; z <= 4; z += 0.1)
        {
            double rate = 0.15 * Math.Exp(0.5 * z);
            double[] factorA = [.. lattice.Select(a => Binomial(before, 12, Chance(a)) * Binomial(after, 12, Chance(a + (rate * gainNow))))];
            double[] factorB = [.. lattice.Select(b => Binomial(9, 14, Chance(b)))];
            double[][] tailsA = [.. lattice.Select(a => Counts(10, Chance(a + (rate * study.Learning.Effective(planned[0])))))];
            double[][] tailsB = [.. lattice.Select(b => Tails(20, Chance(b + (rate * study.Learning.Effective(planned[1])))))];
            double[][] nowA = [.. lattice.Select(a => Counts(10, Chance(a + (rate * gainNow))))];
            double[][] nowB = [.. lattice.Select(b => Tails(20, Chance(b)))];
            for (int a = 0; a < lattice.Length; a++)
            {
                for (int b = 0; b < lattice.Length; b++)
                {
                    double square = (lattice[a] * lattice[a]) - (2 * rho * lattice[a] * lattice[b]) + (lattice[b] * lattice[b]);
                    double weight = Math.Exp((-0.5 * z * z) - (square / (2 * own * (1 - (rho * rho))))) * factorA[a] * factorB[b];
                    if (weight < 1e-14)
                    {
                        continue;
                    }

                    total += weight;
                    meanA += weight * Chance(lattice[a] + (rate * gainNow));
                    logRate += weight * Math.Log(rate);
                    pass += weight * Reach(tailsA[a], tailsB[b], 18);
                    passNow += weight * Reach(nowA[a], nowB[b], 18);
                }
            }
        }

        Assert.Equal(meanA / total, standing.Topics[0].Level.Mean, 1e-3);
        Assert.Equal(Math.Exp(logRate / total), standing.Rate!.Median, 1e-3);
        Assert.Equal(passNow / total, ForecastCalculator.Calculate(standing).PassChance, 1e-3);
        Assert.Equal(pass / total, later.PassChance, 1e-3);
    }

    [Fact]
    public void A_better_quiz_after_study_means_a_faster_learner_and_a_plan_worth_more()
    {
        RateStanding[] rates = [.. new[] { 2, 6, 11 }.Select(after => StandingCalculator.Calculate(Small, Tests(6, after), Now, study: Studied(240)).Rate!)];

        Assert.True(rates[0].Median < rates[1].Median && rates[1].Median < rates[2].Median);
        Assert.True(rates[0].Median < rates[0].AssumedMedian && rates[2].Median > rates[2].AssumedMedian);
        Assert.All(rates, r => Assert.True(r.Low < r.Median && r.Median < r.High && r.Informed is > 0.005 and < 0.5));
    }

    [Fact]
    public void Study_that_no_test_has_seen_lifts_the_standing_by_the_assumed_rate_and_leaves_the_rate_as_assumed()
    {
        ImmutableArray<Attempt> diagnostic = [Tests(6, 6)[0]];
        CandidateStanding without = StandingCalculator.Calculate(Small, diagnostic, Now);
        CandidateStanding with = StandingCalculator.Calculate(Small, diagnostic, Now, study: Studied(120));

        Assert.Equal(0.15, with.Rate!.Median, 1e-6);
        Assert.Equal(0, with.Rate.Informed, 1e-3);
        Assert.True(with.Topics[0].Level.Mean > without.Topics[0].Level.Mean + 0.03);
        Assert.Equal(without.Topics[1].Level.Mean, with.Topics[1].Level.Mean, 1e-4);
    }

    [Fact]
    public void Study_without_effect_is_as_no_study()
    {
        StudyHistory study = new(Small, Studied(240).Sessions, LearningAssumptions.Default with { RatePerHour = 1e-9 });
        CandidateStanding without = StandingCalculator.Calculate(Small, Tests(6, 9), Now);
        CandidateStanding with = StandingCalculator.Calculate(Small, Tests(6, 9), Now, study: study);

        Assert.Equal(without.Topics[0].Level.Mean, with.Topics[0].Level.Mean, 1e-6);
        Assert.Equal(without.Topics[0].Level.Low, with.Topics[0].Level.Low, 1e-5);
        Assert.Equal(ForecastCalculator.Calculate(without).PassChance, ForecastCalculator.Calculate(with).PassChance, 2e-5);
    }

    [Fact]
    public void On_one_day_the_quiz_comes_after_study_and_the_diagnostic_before()
    {
        StudyHistory study = new(Small, [new StudySession(Person, "A", Now, 300, StudyKind.Teaching)]);
        double After(AttemptKind kind)
            => StandingCalculator.Calculate(Small, [new Attempt(Person, "test", kind, Now, [TopicCount.Exact("A", 8, 12)])], Now, study: study).Topics[0].Level.Mean;

        Assert.True(After(AttemptKind.Diagnostic) > After(AttemptKind.Quiz) + 0.02);
    }

    [Fact]
    public void Study_after_the_day_spoken_of_is_left_out()
    {
        StudyHistory later = new(Small, [new StudySession(Person, "A", Now.PlusDays(1), 300, StudyKind.Teaching)]);

        CandidateStanding standing = StandingCalculator.Calculate(Small, Tests(6, 9), Now, study: later);

        Assert.Null(standing.Rate);
        Assert.True(standing.Study.IsEmpty);
    }

    [Fact]
    public void A_weak_part_of_a_studied_topic_is_still_found()
    {
        Exam parts = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 20, "one", "two"), SampleExams.Topic("B", 20));
        ImmutableArray<Attempt> tests =
        [
            new Attempt(Person, "first", AttemptKind.Diagnostic, Now.PlusDays(-6), [TopicCount.Exact("A", 9, 10, "one"), TopicCount.Exact("A", 2, 10, "two"), TopicCount.Exact("B", 9, 14)]),
        ];

        CandidateStanding standing = StandingCalculator.Calculate(parts, tests, Now, study: Studied(120, exam: parts));

        SubtopicStanding two = standing.Topics[0].Subtopics.Single(s => s.Name == "two");
        SubtopicStanding before = StandingCalculator.Calculate(parts, tests, Now).Topics[0].Subtopics.Single(s => s.Name == "two");
        Assert.True(two.HiddenHole);
        Assert.True(two.Level.Mean > before.Level.Mean);
    }

    [Fact]
    public void Sessions_that_cannot_be_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new StudyHistory(Small, [new StudySession(Person, "C", Now, 30, StudyKind.Review)]));
        Assert.Throws<ArgumentException>(() => new StudyHistory(Small, [new StudySession(Person, "A", Now, 0, StudyKind.Review)]));
    }

    private static double Chance(double theta) => 0.25 + (0.75 / (1 + Math.Exp(-theta)));

    private static double Binomial(int k, int n, double p) => MathNet.Numerics.Distributions.Binomial.PMF(p, n, k);

    private static double[] Counts(int n, double p) => [.. Enumerable.Range(0, n + 1).Select(k => Binomial(k, n, p))];

    private static double[] Tails(int n, double p)
    {
        double[] tails = Counts(n, p);
        for (int k = n - 1; k >= 0; k--)
        {
            tails[k] += tails[k + 1];
        }

        return tails;
    }

    private static double Reach(double[] counts, double[] tails, int cut)
    {
        double sum = 0;
        for (int k = 0; k < counts.Length; k++)
        {
            int needed = Math.Max(0, cut - k);
            sum += needed < tails.Length ? counts[k] * tails[needed] : 0;
        }

        return sum;
    }
}
