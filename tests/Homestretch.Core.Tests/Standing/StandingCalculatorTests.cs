using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Standing;

public class StandingCalculatorTests
{
    private static readonly StandingAssumptions NoFormEffects = StandingAssumptions.Default with { TopicFormSd = 0 };

    private static readonly Exam Small = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 20));

    [Fact]
    public void Posterior_equals_brute_force_integration_over_all_abilities()
    {
        CandidateStanding standing = StandingCalculator.Calculate(Small, SampleExams.Diagnostic(("A", 2, 3), ("B", 9, 14)), SampleExams.Today, NoFormEffects);

        // Every point of (overall, A, B) on a fine lattice, nothing factored out.
        const double Step = 0.08;
        double[] lattice = [.. Enumerable.Range(0, 171).Select(i => -6.8 + (i * Step))];
        double[] chance = [.. lattice.Select(t => 0.25 + (0.75 / (1 + Math.Exp(-t))))];
        double[] likelihoodA = [.. chance.Select(p => Math.Pow(p, 2) * (1 - p))];
        double[] likelihoodB = [.. chance.Select(p => Math.Pow(p, 9) * Math.Pow(1 - p, 5))];
        double total = 0, meanA = 0, meanB = 0, weakA = 0;
        double sd = NoFormEffects.AbilitySd, tau = NoFormEffects.TopicSd;
        for (int m = 0; m < lattice.Length; m++)
        {
            double prior = Math.Exp(-0.5 * Math.Pow(lattice[m] / sd, 2));
            for (int a = 0; a < lattice.Length; a++)
            {
                double joint = prior * likelihoodA[a] * Math.Exp(-0.5 * Math.Pow((lattice[a] - lattice[m]) / tau, 2));
                for (int b = 0; b < lattice.Length; b++)
                {
                    double weight = joint * likelihoodB[b] * Math.Exp(-0.5 * Math.Pow((lattice[b] - lattice[m]) / tau, 2));
                    total += weight;
                    meanA += weight * chance[a];
                    meanB += weight * chance[b];
                    weakA += chance[a] < 0.5 ? weight : 0;
                }
            }
        }

        Assert.Equal(meanA / total, standing.Topics[0].Level.Mean, 1e-6);
        Assert.Equal(meanB / total, standing.Topics[1].Level.Mean, 1e-6);

        // The lattice cuts the band edge off at a whole cell, so this one is coarse.
        Assert.Equal(weakA / total, standing.Topics[0].Level.Chances.Weak, 0.02);
    }

    [Fact]
    public void Band_chances_and_quantiles_equal_brute_force_integration()
    {
        Exam one = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));
        Level level = StandingCalculator.Calculate(one, SampleExams.Diagnostic(("A", 7, 12)), SampleExams.Today, NoFormEffects).Topics[0].Level;

        // With one topic its prior is normal with both variances; integrated by MathNet's double-exponential rule.
        double variance = Math.Pow(NoFormEffects.AbilitySd, 2) + Math.Pow(NoFormEffects.TopicSd, 2);
        double Density(double t)
        {
            double p = 0.25 + (0.75 / (1 + Math.Exp(-t)));
            return Math.Exp(-0.5 * t * t / variance) * Math.Pow(p, 7) * Math.Pow(1 - p, 5);
        }

        double Below(double t) => MathNet.Numerics.Integrate.DoubleExponential(Density, -9, t, 1e-14);
        double total = Below(9);
        static double Ability(double p) => Math.Log((p - 0.25) / (1 - p));
        Assert.Equal(Below(Ability(0.5)) / total, level.Chances.Weak, 1e-6);
        Assert.Equal((total - Below(Ability(0.675))) / total, level.Chances.Strong, 1e-6);
        Assert.Equal(0.05, Below(Ability(level.Low)) / total, 1e-6);
        Assert.Equal(0.95, Below(Ability(level.High)) / total, 1e-6);
        Assert.Equal(1, level.Chances.Weak + level.Chances.Borderline + level.Chances.Strong, 1e-12);
    }

    [Fact]
    public void Item_sampling_equals_an_explicit_integral_over_the_tests_difficulty()
    {
        Exam one = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));
        StandingAssumptions assumptions = StandingAssumptions.Default;
        double mean = StandingCalculator.Calculate(one, SampleExams.Diagnostic(("A", 9, 12)), SampleExams.Today, assumptions).Topics[0].Level.Mean;

        double variance = Math.Pow(assumptions.AbilitySd, 2) + Math.Pow(assumptions.TopicSd, 2);
        double total = 0, sum = 0;
        for (double t = -8; t <= 8; t += 0.02)
        {
            for (double e = -2; e <= 2; e += 0.02)
            {
                double p = 0.25 + (0.75 / (1 + Math.Exp(-(t + e))));
                double weight = Math.Exp((-0.5 * t * t / variance) - (0.5 * e * e / Math.Pow(assumptions.TopicFormSd, 2))) * Math.Pow(p, 9) * Math.Pow(1 - p, 3);
                total += weight;
                sum += weight * (0.25 + (0.75 / (1 + Math.Exp(-t))));
            }
        }

        Assert.Equal(sum / total, mean, 1e-6);
    }

    [Fact]
    public void Posterior_agrees_with_a_long_random_walk_sampler()
    {
        Exam exam = SampleExams.OneSection(
            new PercentCut(60),
            SampleExams.Topic("A", 10),
            SampleExams.Topic("B", 10),
            SampleExams.Topic("C", 10),
            SampleExams.Topic("D", 10));
        (int Correct, int Items)[] counts = [(1, 3), (5, 6), (7, 12), (0, 0)];
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("A", 1, 3), ("B", 5, 6), ("C", 7, 12)), SampleExams.Today, NoFormEffects);

        Random random = new(20261125);
        double[] state = new double[5];
        double LogDensity(double[] x)
        {
            double log = -0.5 * Math.Pow(x[4] / NoFormEffects.AbilitySd, 2);
            for (int t = 0; t < 4; t++)
            {
                double p = 0.25 + (0.75 / (1 + Math.Exp(-x[t])));
                log += (-0.5 * Math.Pow((x[t] - x[4]) / NoFormEffects.TopicSd, 2)) + (counts[t].Correct * Math.Log(p)) + ((counts[t].Items - counts[t].Correct) * Math.Log(1 - p));
            }

            return log;
        }

        const int Batches = 100;
        const int PerBatch = 6000;
        double[,] batchMeans = new double[4, Batches];
        double current = LogDensity(state);
        for (int batch = -5; batch < Batches; batch++)
        {
            for (int i = 0; i < PerBatch; i++)
            {
                double[] proposal = [.. state.Select(x => x + (0.55 * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1)))];
                double proposed = LogDensity(proposal);
                if (Math.Log(random.NextDouble()) < proposed - current)
                {
                    (state, current) = (proposal, proposed);
                }

                for (int t = 0; batch >= 0 && t < 4; t++)
                {
                    batchMeans[t, batch] += (0.25 + (0.75 / (1 + Math.Exp(-state[t])))) / PerBatch;
                }
            }
        }

        for (int t = 0; t < 4; t++)
        {
            double[] means = [.. Enumerable.Range(0, Batches).Select(b => batchMeans[t, b])];
            double standardError = MathNet.Numerics.Statistics.Statistics.StandardDeviation(means) / Math.Sqrt(Batches);
            Assert.InRange(standardError, 1e-5, 0.003);
            Assert.InRange(standing.Topics[t].Level.Mean, means.Average() - (3 * standardError), means.Average() + (3 * standardError));
        }
    }

    [Fact]
    public void A_topic_with_few_items_borrows_from_the_others()
    {
        CandidateStanding strongElsewhere = StandingCalculator.Calculate(Small, SampleExams.Diagnostic(("A", 1, 2), ("B", 19, 20)), SampleExams.Today);
        CandidateStanding weakElsewhere = StandingCalculator.Calculate(Small, SampleExams.Diagnostic(("A", 1, 2), ("B", 6, 20)), SampleExams.Today);
        Assert.True(strongElsewhere.Topics[0].Level.Mean > weakElsewhere.Topics[0].Level.Mean + 0.1);
    }

    [Fact]
    public void A_band_of_counts_is_the_sum_over_the_counts_inside_it()
    {
        // "41-60 % of 12 items" is 5, 6 or 7 correct: its posterior is the mixture of the three, weighted by how likely each count is.
        Exam one = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));
        ImmutableArray<Attempt> report = [new Attempt("Someone", "report", AttemptKind.Official, SampleExams.Today, [new TopicCount("A", null, 5, 7, 12)])];
        double banded = StandingCalculator.Calculate(one, report, SampleExams.Today, NoFormEffects).Topics[0].Level.Mean;

        double variance = Math.Pow(NoFormEffects.AbilitySd, 2) + Math.Pow(NoFormEffects.TopicSd, 2);
        double[] evidence = new double[3];
        double[] means = new double[3];
        for (double t = -8; t <= 8; t += 0.01)
        {
            double p = 0.25 + (0.75 / (1 + Math.Exp(-t)));
            for (int i = 0; i < 3; i++)
            {
                double weight = Math.Exp(-0.5 * t * t / variance) * MathNet.Numerics.Distributions.Binomial.PMF(p, 12, 5 + i);
                evidence[i] += weight;
                means[i] += weight * p;
            }
        }

        Assert.Equal(means.Sum() / evidence.Sum(), banded, 1e-6);
    }

    [Fact]
    public void Older_evidence_counts_less_and_widens_with_its_age()
    {
        ImmutableArray<Attempt> attempts = SampleExams.Diagnostic(("A", 9, 10), ("B", 18, 20));
        Level fresh = StandingCalculator.Calculate(Small, attempts, SampleExams.Today).Topics[1].Level;
        Level old = StandingCalculator.Calculate(Small, attempts, SampleExams.Today.PlusDays(120)).Topics[1].Level;
        Assert.True(old.High - old.Low > fresh.High - fresh.Low);
        Assert.True(old.Mean < fresh.Mean);
    }

    [Fact]
    public void A_later_attempt_outweighs_an_earlier_one()
    {
        Attempt Of(int correct, LocalDate day) => new("Someone", $"test {day}", AttemptKind.Quiz, day, [TopicCount.Exact("A", correct, 10)]);
        LocalDate before = SampleExams.Today.PlusDays(-200);
        double rose = StandingCalculator.Calculate(Small, [Of(3, before), Of(9, SampleExams.Today)], SampleExams.Today).Topics[0].Level.Mean;
        double fell = StandingCalculator.Calculate(Small, [Of(9, before), Of(3, SampleExams.Today)], SampleExams.Today).Topics[0].Level.Mean;
        Assert.True(rose > fell + 0.05, $"{rose} {fell}");
    }

    [Fact]
    public void A_good_topic_that_hides_a_weak_subtopic_is_pointed_out()
    {
        Exam exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 20, "Easy part", "Hard part"), SampleExams.Topic("B", 20));
        ImmutableArray<Attempt> attempts = [new Attempt("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today,
            [TopicCount.Exact("A", 15, 16, "Easy part"), TopicCount.Exact("A", 1, 8, "Hard part"), TopicCount.Exact("B", 7, 10)])];
        TopicStanding topic = StandingCalculator.Calculate(exam, attempts, SampleExams.Today).Topics[0];
        Assert.NotEqual(Band.Weak, topic.Level.Band);
        Assert.Equal([false, true], topic.Subtopics.Select(s => s.HiddenHole));
        Assert.Equal([16, 8], topic.Subtopics.Select(s => s.EvidenceItems));
    }

    [Fact]
    public void Items_to_settle_is_what_a_simulation_of_further_items_finds()
    {
        Exam one = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));
        CandidateStanding standing = StandingCalculator.Calculate(one, SampleExams.Diagnostic(("A", 10, 13)), SampleExams.Today, NoFormEffects);
        int needed = Assert.NotNull(standing.Topics[0].ItemsToSettle);
        Assert.InRange(needed, 1, StandingCalculator.MostItemsToSettle);

        // The expected chance of the likeliest band after m further items, from standings computed for every count they could give.
        double Expected(int items)
        {
            double[] predictive = new double[items + 1];
            AbilityPosterior posterior = standing.Posterior;
            double[] marginal = posterior.Marginal(0);
            for (int i = 0; i < marginal.Length; i++)
            {
                double p = posterior.Curves[0].Chance(posterior.Grid[i]);
                for (int k = 0; k <= items; k++)
                {
                    predictive[k] += marginal[i] * MathNet.Numerics.Distributions.Binomial.PMF(p, items, k);
                }
            }

            return predictive.Select((chance, k) =>
            {
                BandChances bands = StandingCalculator.Calculate(one, SampleExams.Diagnostic(("A", 10 + k, 13 + items)), SampleExams.Today, NoFormEffects).Topics[0].Level.Chances;
                return chance * Math.Max(bands.Weak, Math.Max(bands.Borderline, bands.Strong));
            }).Sum();
        }

        Assert.True(Expected(needed) >= Level.SettledFrom - 0.002);
        Assert.True(Expected(needed - 1) < Level.SettledFrom + 0.002);
    }

    [Fact]
    public void Section_standing_is_the_item_weighted_mean_of_its_topics()
    {
        Exam exam = SampleExams.Large();
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.HalfLength(exam, 0.4, 0.6, 0.8), SampleExams.Today);
        for (int s = 0; s < exam.Sections.Length; s++)
        {
            double expected = standing.Topics.Where(t => t.Topic.SectionIndex == s).Sum(t => t.Level.Mean * t.Topic.Items) / exam.Sections[s].ScoredItems;
            Level level = standing.Sections[s].Level;
            Assert.Equal(expected, level.Mean, 1e-9);
            Assert.InRange(level.Mean, level.Low, level.High);
            Assert.True(level.High - level.Low < standing.Topics.Where(t => t.Topic.SectionIndex == s).Min(t => t.Level.High - t.Level.Low));
        }
    }

    [Fact]
    public void A_section_of_one_topic_stands_where_its_topic_stands()
    {
        Exam one = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));
        CandidateStanding standing = StandingCalculator.Calculate(one, SampleExams.Diagnostic(("A", 7, 12)), SampleExams.Today);
        Level topic = standing.Topics[0].Level;
        Level section = standing.Sections[0].Level;
        Assert.Equal([topic.Mean, topic.Low, topic.High, topic.Chances.Weak, topic.Chances.Strong], [section.Mean, section.Low, section.High, section.Chances.Weak, section.Chances.Strong], (a, b) => Math.Abs(a - b) < 0.002);
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0, 1)]
    [InlineData(60, 60)]
    [InlineData(0, 60)]
    [InlineData(1500, 2000)]
    [InlineData(2000, 2000)]
    public void Extreme_evidence_gives_figures_not_nonsense(int correct, int items)
    {
        ImmutableArray<Attempt> attempts = items == 0 ? [] : SampleExams.Diagnostic(("A", correct, items));
        foreach (TopicStanding topic in StandingCalculator.Calculate(Small, attempts, SampleExams.Today).Topics)
        {
            Assert.InRange(topic.Level.Mean, 0.25, 1);
            Assert.InRange(topic.Level.Low, 0.25, topic.Level.Mean);
            Assert.InRange(topic.Level.High, topic.Level.Mean, 1);
        }
    }

    [Fact]
    public void A_topic_the_exam_does_not_have_is_refused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => StandingCalculator.Calculate(Small, SampleExams.Diagnostic(("C", 1, 2)), SampleExams.Today));
        Assert.Contains("'C'", error.Message, StringComparison.Ordinal);
    }
}
