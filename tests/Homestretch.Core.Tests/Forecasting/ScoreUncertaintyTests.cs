using System.Collections.Immutable;
using CsCheck;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;
using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Tests.Forecasting;

/// <summary>Where the uncertainty of the score comes from.</summary>
public class ScoreUncertaintyTests
{
    private static readonly Exam Exam = SampleExams.Of(
        OverallRule.EverySection,
        null,
        SampleExams.Section("First", new PercentCut(60), 4, SampleExams.Topic("A", 20), SampleExams.Topic("B", 8)),
        SampleExams.Section("Second", new PercentCut(60), 0, SampleExams.Topic("C", 12)));

    private static readonly ImmutableArray<Attempt> Evidence = SampleExams.Diagnostic(("A", 7, 10), ("B", 2, 5), ("C", 3, 6));

    /// <summary>
    /// The covariance of two exams that share some sources, and draw the others anew, is the variance of the expected score given those shared: simulated source by source.
    /// </summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Parts_agree_with_simulated_exams_that_share_their_sources(bool study)
    {
        StandingAssumptions assumptions = StandingAssumptions.Default with { FormSd = 0.3, TopicFormSd = 0.35 };
        AbilityPosterior posterior = StandingCalculator.PosteriorOf(Exam, Evidence, SampleExams.Today, assumptions);
        double[] effort = study ? [6, 4, 5] : [0, 0, 0];
        ScoreModel model = new(Exam, posterior);
        ScoreUncertainty split = model.Uncertainty(effort);

        Random random = new(study ? 1 : 2);
        Normal normal = new(0, 1, random);
        const int Draws = 400_000;
        double[] cumulative = Cumulate(posterior.Weights);
        double[][][] conditional = [.. Exam.Topics.Select((_, t) => posterior.Nodes.Select((_, k) => Cumulate(posterior.Conditional(t, k).Density)).ToArray())];
        double[] sums = new double[6];
        double[] products = new double[6];
        for (int draw = 0; draw < Draws; draw++)
        {
            double[] ability = Ability();
            double rate = Rate();
            double form = Form();
            double[] items = Items();
            double one = Score(ability, rate, form, items);

            // The second exam shares nothing, the rate, rate and ability, ... and at last all but the luck in answering.
            double[] others =
            [
                Score(Ability(), Rate(), Form(), Items()),
                Score(Ability(), rate, Form(), Items()),
                Score(ability, rate, Form(), Items()),
                Score(ability, rate, form, Items()),
                Score(ability, rate, form, items),
                one,
            ];
            for (int i = 0; i < others.Length; i++)
            {
                sums[i] += others[i];
                products[i] += one * others[i];
            }
        }

        double[] known = [.. products.Select((p, i) => (p / Draws) - (sums[i] / Draws * (sums[5] / Draws)))];
        double error = 4 * split.Variance / Math.Sqrt(Draws);
        Assert.Equal(0, known[0], error);
        Assert.Equal(known[1], split.Learning, error);
        Assert.Equal(known[2] - known[1], split.Ability, error);
        Assert.Equal(known[3] - known[2], split.Form, error);
        Assert.Equal(known[4] - known[3], split.Items, error);
        Assert.Equal(known[5] - known[4], split.Chance, error);
        Assert.Equal(study, split.Learning > error);
        Assert.True(Math.Min(Math.Min(split.Ability, split.Form), Math.Min(split.Items, split.Chance)) > error);

        double[] Ability()
        {
            int node = Pick(cumulative, random);
            return [.. Exam.Topics.Select((_, t) => posterior.Grid[posterior.Conditional(t, node).Start + Pick(conditional[t][node], random)])];
        }

        double Rate() => LearningAssumptions.Default.RatePerHour * Math.Exp(LearningAssumptions.Default.RateLogSd * normal.Sample());

        double Form() => posterior.FormSd * normal.Sample();

        double[] Items() => [.. Exam.Topics.Select(_ => assumptions.TopicFormSd * normal.Sample())];

        double Score(double[] ability, double rate, double form, double[] items)
        {
            int correct = 0;
            for (int t = 0; t < ability.Length; t++)
            {
                double p = posterior.Curves[t].Chance(ability[t] + form + items[t] + (rate * LearningAssumptions.Default.Effective(effort[t])));
                correct += Binomial.Sample(random, p, Exam.Topics[t].Items);
            }

            return correct;
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Parts_sum_to_the_variance_where_past_study_says_how_fast_the_person_learns(bool further)
    {
        StudyHistory study = new(Exam, [new("Someone", "A", SampleExams.Today.PlusDays(-6), 240, StudyKind.Teaching), new("Someone", "C", SampleExams.Today.PlusDays(-5), 180, StudyKind.PracticeItems)]);
        ImmutableArray<Attempt> attempts =
        [
            SampleExams.Diagnostic(("A", 4, 10), ("B", 2, 5), ("C", 2, 6))[0] with { Name = "before", Date = SampleExams.Today.PlusDays(-10) },
            SampleExams.Diagnostic(("A", 8, 10), ("B", 2, 5), ("C", 5, 6))[0],
        ];
        CandidateStanding standing = StandingCalculator.Calculate(Exam, attempts, SampleExams.Today, study: study);
        Assert.True(standing.Posterior.RateGroups.Length > 1);
        ScoreModel model = new(standing);
        double[] effort = [.. model.EffortNow.Select(e => further ? e + 3 : e)];
        ScoreOutcome outcome = model.Outcome(effort);
        double variance = outcome.Total.Select((p, k) => p * Math.Pow(k - outcome.ExpectedCorrect, 2)).Sum();
        ScoreUncertainty split = model.Uncertainty(effort);
        Assert.Equal(1, split.Variance / variance, 1e-4);
        Assert.Equal(further, split.Learning > 0);
        Assert.True(split.Ability > 0);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(2)]
    [InlineData(12)]
    public void Parts_sum_to_the_variance_of_the_distribution(double hours)
    {
        Exam large = SampleExams.Large();
        ScoreModel model = new(large, StandingCalculator.PosteriorOf(large, SampleExams.HalfLength(large, 0.75, 0.6, 0.8, 0.7), SampleExams.Today, StandingAssumptions.Default));
        double[] effort = [.. large.Topics.Select((_, i) => hours * (i % 3))];
        ScoreOutcome outcome = model.Outcome(effort);
        double variance = outcome.Total.Select((p, k) => p * Math.Pow(k - outcome.ExpectedCorrect, 2)).Sum();
        ScoreUncertainty split = model.Uncertainty(effort);

        // The distribution leaves nodes out that weigh less than 1e-8.
        Assert.Equal(1, split.Variance / variance, 1e-5);
        Assert.Equal(1, split.Shares.Sum(), 1e-12);
        Assert.Equal(Math.Sqrt(variance), split.StandardDeviation, 1e-3);
    }

    /// <summary>A spread far below the step of the ability grid is drawn too small in the distribution, so spreads here begin at the step.</summary>
    [Fact]
    public void The_split_of_any_forecast_has_no_part_below_nothing_and_sums_to_its_variance()
        => Check.Sample(
            Gen.Select(Gen.Int[0, 30].Array[3], Gen.Double[0, 1].Array[3], Gen.Double[0.1, 0.6], Gen.Double[0, 8].Array[3]),
            t =>
            {
                (int[] items, double[] shares, double spread, double[] effort) = t;
                ImmutableArray<Attempt> attempts = SampleExams.Diagnostic([.. Exam.Topics.Select((topic, i) => (topic.Name, (int)(shares[i] * items[i]), items[i])).Where(c => c.Item3 > 0)]);
                StandingAssumptions assumptions = StandingAssumptions.Default with { FormSd = spread, TopicFormSd = spread };
                ScoreModel model = new(Exam, StandingCalculator.PosteriorOf(Exam, attempts, SampleExams.Today, assumptions));
                ScoreUncertainty split = model.Uncertainty(effort);
                ScoreOutcome outcome = model.Outcome(effort);
                double variance = outcome.Total.Select((p, k) => p * Math.Pow(k - outcome.ExpectedCorrect, 2)).Sum();
                Assert.Equal(1, split.Variance / variance, 1e-4);
                Assert.All(split.Shares, s => Assert.InRange(s, 0, 1));
            },
            iter: 100);

    [Fact]
    public void A_source_without_spread_has_no_part()
    {
        ScoreUncertainty plain = Split(StandingAssumptions.Default);
        ScoreUncertainty noForm = Split(StandingAssumptions.Default with { FormSd = 0 });
        ScoreUncertainty noItems = Split(StandingAssumptions.Default with { TopicFormSd = 0 });
        Assert.Equal(0, noForm.Form);
        Assert.Equal(0, noItems.Items);
        Assert.Equal(0, plain.Learning);
        Assert.True(plain.Form > 0 && plain.Items > 0);

        // Ten times the evidence leaves less of the ability open; the rest stays.
        ScoreUncertainty more = new ScoreModel(Exam, StandingCalculator.PosteriorOf(
            Exam, SampleExams.Diagnostic(("A", 70, 100), ("B", 20, 50), ("C", 30, 60)), SampleExams.Today, StandingAssumptions.Default)).Uncertainty([0, 0, 0]);
        Assert.True(more.Ability < 0.6 * plain.Ability);
        Assert.Equal(1, more.Chance / plain.Chance, 0.1);

        static ScoreUncertainty Split(StandingAssumptions assumptions)
            => new ScoreModel(Exam, StandingCalculator.PosteriorOf(Exam, Evidence, SampleExams.Today, assumptions)).Uncertainty([0, 0, 0]);
    }

    private static double[] Cumulate(ImmutableArray<double> weights)
    {
        double sum = 0;
        return [.. weights.Select(w => sum += w)];
    }

    private static int Pick(double[] cumulative, Random random)
    {
        int index = Array.BinarySearch(cumulative, random.NextDouble() * cumulative[^1]);
        return Math.Min(index < 0 ? ~index : index, cumulative.Length - 1);
    }
}
