using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Forecasting;

public class ForecastCalculatorTests
{
    [Fact]
    public void Distribution_equals_brute_force_integration_over_ability_and_form()
    {
        // One topic: ability given the evidence, plus the form, plus the exam's own items on the topic, all normal shifts.
        Exam exam = SampleExams.OneSection(new CorrectCut(4), SampleExams.Topic("A", 5));
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("A", 6, 10)), SampleExams.Today);
        Forecast forecast = ForecastCalculator.Calculate(standing);

        StandingAssumptions assumptions = StandingAssumptions.Default;
        double priorVariance = Math.Pow(assumptions.AbilitySd, 2) + Math.Pow(assumptions.TopicSd, 2);
        double formVariance = Math.Pow(assumptions.TopicFormSd, 2) + Math.Pow(assumptions.FormSd, 2);
        double[] expected = new double[6];
        const double Step = 0.05;
        for (double t = -8; t <= 8; t += Step)
        {
            double likelihood = 0;
            for (double e = -2; e <= 2; e += Step)
            {
                double p = 0.25 + (0.75 / (1 + Math.Exp(-(t + e))));
                likelihood += Math.Exp(-0.5 * e * e / Math.Pow(assumptions.TopicFormSd, 2)) * Math.Pow(p, 6) * Math.Pow(1 - p, 4);
            }

            double weight = Math.Exp(-0.5 * t * t / priorVariance) * likelihood;
            for (double f = -2.5; f <= 2.5; f += Step)
            {
                double p = 0.25 + (0.75 / (1 + Math.Exp(-(t + f))));
                double shift = weight * Math.Exp(-0.5 * f * f / formVariance);
                for (int k = 0; k <= 5; k++)
                {
                    expected[k] += shift * MathNet.Numerics.Distributions.Binomial.PMF(p, 5, k);
                }
            }
        }

        double total = expected.Sum();
        for (int k = 0; k <= 5; k++)
        {
            Assert.Equal(expected[k] / total, forecast.Distribution[k], 1e-6);
        }

        Assert.Equal((expected[4] + expected[5]) / total, forecast.PassChance, 1e-6);
    }

    [Fact]
    public void Pass_chance_agrees_with_a_simulated_exam_of_two_sections()
    {
        Exam exam = SampleExams.Large();
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.HalfLength(exam, 0.75, 0.6, 0.8, 0.7), SampleExams.Today);
        Random random = new(7);
        SimulatedPerson person = new(standing, random);
        const int Draws = 100_000;
        int passes = 0;
        for (int draw = 0; draw < Draws; draw++)
        {
            int[] correct = new int[exam.Sections.Length];
            double[] chances = person.Chances();
            for (int t = 0; t < exam.Topics.Length; t++)
            {
                correct[exam.Topics[t].SectionIndex] += MathNet.Numerics.Distributions.Binomial.Sample(random, chances[t], exam.Topics[t].Items);
            }

            passes += exam.Sections.Select((s, i) => correct[i] >= s.Cut!.RequiredCorrect(s.ScoredItems)).All(ok => ok) ? 1 : 0;
        }

        double share = (double)passes / Draws;
        double standardError = Math.Sqrt(share * (1 - share) / Draws);
        Assert.InRange(ForecastCalculator.Calculate(standing).PassChance, share - (3 * standardError), share + (3 * standardError));
    }

    [Fact]
    public void Sections_share_the_persons_ability()
    {
        Exam exam = SampleExams.Large();
        Forecast forecast = ForecastCalculator.Calculate(StandingCalculator.Calculate(exam, SampleExams.HalfLength(exam, 0.7), SampleExams.Today));
        double product = forecast.Sections[0].PassChance!.Value * forecast.Sections[1].PassChance!.Value;
        double smaller = Math.Min(forecast.Sections[0].PassChance!.Value, forecast.Sections[1].PassChance!.Value);
        Assert.InRange(forecast.PassChance, product + 0.01, smaller);
    }

    [Fact]
    public void Equal_rules_in_different_words_give_the_same_chance()
    {
        Topic[] topics = [SampleExams.Topic("A", 24), SampleExams.Topic("B", 16)];
        double Chance(CutScore cut) => Calculate(SampleExams.OneSection(cut, topics)).PassChance;
        double byCount = Chance(new CorrectCut(26));
        Assert.Equal(byCount, Chance(new PercentCut(65)), 1e-15);
        Assert.Equal(byCount, Chance(new ScaledLineCut(460, 200, 600)), 1e-15);
        Assert.Equal(byCount, Chance(new ScaledTableCut(70, [new ScaledScore(0, 0), new ScaledScore(20, 50), new ScaledScore(26, 70), new ScaledScore(40, 100)])), 1e-15);
        Exam total = SampleExams.Of(OverallRule.Total, new PercentCut(65), SampleExams.Section("Whole", null, 4, topics));
        Assert.Equal(byCount, Calculate(total).PassChance, 1e-12);
    }

    [Fact]
    public void A_total_with_minimums_is_harder_than_either_alone()
    {
        Section First(CutScore? cut) => SampleExams.Section("First", cut, 4, SampleExams.Topic("A", 24));
        Section Second(CutScore? cut) => SampleExams.Section("Second", cut, 4, SampleExams.Topic("B", 16));
        CorrectCut total = new(26);
        double both = Calculate(SampleExams.Of(OverallRule.TotalWithSectionMinimums, total, First(new CorrectCut(13)), Second(new CorrectCut(9)))).PassChance;
        double alone = Calculate(SampleExams.Of(OverallRule.Total, total, First(null), Second(null))).PassChance;
        double sections = Calculate(SampleExams.Of(OverallRule.EverySection, null, First(new CorrectCut(13)), Second(new CorrectCut(9)))).PassChance;
        Assert.True(both < alone && both < sections);
        Assert.True(both > alone + sections - 1);
    }

    [Fact]
    public void Topic_targets_add_up_to_the_cut_score()
    {
        Exam exam = SampleExams.Large();
        Forecast forecast = ForecastCalculator.Calculate(StandingCalculator.Calculate(exam, SampleExams.HalfLength(exam, 0.5, 0.7), SampleExams.Today));
        foreach (SectionForecast section in forecast.Sections)
        {
            Assert.Equal(section.Cut, forecast.Topics.Where(t => t.Topic.Section == section.Section).Sum(t => t.NeededCorrect));
        }

        Assert.All(forecast.Topics, t => Assert.InRange(t.NeededCorrect, 0, t.Topic.Items));
    }

    [Fact]
    public void A_total_with_minimums_sets_targets_that_meet_both()
    {
        Exam exam = SampleExams.Of(
            OverallRule.TotalWithSectionMinimums,
            new CorrectCut(30),
            SampleExams.Section("First", new CorrectCut(10), 4, SampleExams.Topic("A", 30)),
            SampleExams.Section("Second", new CorrectCut(14), 4, SampleExams.Topic("B", 15)));
        Forecast forecast = ForecastCalculator.Calculate(StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("A", 14, 15), ("B", 4, 10)), SampleExams.Today));
        Assert.True(forecast.Topics[1].NeededCorrect >= 14);
        Assert.Equal(30, forecast.Topics.Sum(t => t.NeededCorrect));
    }

    [Fact]
    public void Small_quadrature_agrees_with_a_large_one()
    {
        Exam exam = SampleExams.Large();
        foreach (double share in new[] { 0.45, 0.65, 0.85 })
        {
            CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.HalfLength(exam, share, share - 0.1), SampleExams.Today);
            double[] effort = [.. exam.Topics.Select((_, t) => (t * 7 % 5) * 0.6)];
            ScoreModel reference = new(exam, standing.Posterior, null, new QuadratureDetail(0.1, 1e-12, 21, 15, 1));
            ScoreModel full = new(exam, standing.Posterior);
            ScoreModel coarse = new(exam, standing.Posterior, null, QuadratureDetail.Coarse);
            Assert.Equal(reference.PassChance(new double[12]), full.PassChance(new double[12]), 1e-5);
            Assert.Equal(reference.PassChance(effort), full.PassChance(effort), 1e-4);
            Assert.Equal(reference.PassChance(effort), coarse.PassChance(effort), 0.004);
        }
    }

    [Fact]
    public void Marginal_gains_are_the_differences_of_pass_chances()
    {
        Exam exam = SampleExams.Of(
            OverallRule.TotalWithSectionMinimums,
            new PercentCut(62),
            SampleExams.Section("First", new PercentCut(50), 4, SampleExams.Topic("A", 12), SampleExams.Topic("B", 9)),
            SampleExams.Section("Second", null, 0, SampleExams.Topic("C", 7), SampleExams.Topic("D", 14), SampleExams.Topic("E", 3)));
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.HalfLength(exam, 0.6), SampleExams.Today);
        ScoreModel model = new(exam, standing.Posterior, null, QuadratureDetail.Coarse);
        double[] effort = [0.3, 0, 0.8, 0.2, 0];
        double[] piece = [0.2, 0.5, 0.4, 0.1, 0.3];
        EffortChange[] gains = new EffortChange[5];
        EffortChange[] losses = new EffortChange[5];
        double pass = model.Marginal(effort, piece, gains, losses);
        Assert.Equal(model.PassChance(effort), pass, 1e-9);
        for (int t = 0; t < 5; t++)
        {
            double[] more = [.. effort];
            more[t] += piece[t];
            Assert.Equal(model.PassChance(more) - pass, gains[t].Pass, 1e-8);
            Assert.Equal(model.Outcome(more).ExpectedCorrect - model.Outcome(effort).ExpectedCorrect, gains[t].Score, 1e-6);
            double[] less = [.. effort];
            less[t] = Math.Max(0, less[t] - piece[t]);
            Assert.Equal(pass - model.PassChance(less), losses[t].Pass, 1e-8);
        }
    }

    private static Forecast Calculate(Exam exam)
        => ForecastCalculator.Calculate(StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("A", 13, 20), ("B", 8, 14)), SampleExams.Today));
}
