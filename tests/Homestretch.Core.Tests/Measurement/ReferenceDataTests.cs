using Homestretch.Core.Measurement;
using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Against R's packages on real answers. Script, versions, data sources and licences: Reference/measurement.R.</summary>
public class ReferenceDataTests
{
    // Both sides compute the same sums in double precision.
    private const double Same = 1e-9;

    // Quadrature on both sides; R's integrate is asked for 1e-11.
    private const double Quadrature = 1e-7;

    public static readonly TheoryData<string> Sets = ["math", "ability"];

    [Theory]
    [MemberData(nameof(Sets))]
    public void Reliability_agrees_with_psych_and_psychometric(string set)
    {
        ReliabilityReport report = Reliability.Of(Scores(set));
        Assert.Equal(Answers.Figure($"{set}.persons"), report.Persons);
        Close($"{set}.mean", report.Mean, Same);
        Close($"{set}.sd", report.StandardDeviation, Same);
        Close($"{set}.alpha", report.Alpha, Same);
        Close($"{set}.alpha", report.Kr20, Same);
        Close($"{set}.kr21", report.Kr21, Same);
        Close($"{set}.split", report.SplitHalf, Same);
        Close($"{set}.guttman", report.Guttman, Same);
        Close($"{set}.sem", report.StandardError, Same);
        Assert.Equal(Answers.Figure($"{set}.alpha.low"), report.AlphaInterval!.Value.Low, 1e-7);
        Assert.Equal(Answers.Figure($"{set}.alpha.high"), report.AlphaInterval.Value.High, 1e-7);
    }

    [Theory]
    [MemberData(nameof(Sets))]
    public void Item_figures_agree_with_psych_and_psychometric(string set)
    {
        ItemScores scores = Scores(set);
        foreach ((ItemReport item, int i) in ItemAnalysis.Analyse(scores).Select((r, i) => (r, i + 1)))
        {
            Close($"{set}.p.{i}", item.Difficulty, Same);
            Close($"{set}.r.{i}", item.Discrimination, Same);

            // psych's biserial divides by the standard deviation with n - 1, the textbook form by that with n.
            double n = scores.Persons.Length;
            Assert.Equal(Answers.Figure($"{set}.biserial.{i}"), item.Biserial.Value!.Value * Math.Sqrt((n - 1) / n), 1e-9);
        }
    }

    [Theory]
    [InlineData("math", 7)]
    [InlineData("math", 9)]
    [InlineData("ability", 8)]
    [InlineData("ability", 12)]
    public void Classification_agrees_with_moment_equations_and_quadrature_in_R(string set, int cut)
    {
        ItemScores scores = Scores(set);
        Check(set, Classification.Of(scores, cut, Reliability.Of(scores).Alpha));
    }

    [Theory]
    [InlineData(24)]
    [InlineData(28)]
    public void Classification_with_four_parameters_agrees_with_R(int cut)
    {
        int[] correct = [.. ReferenceTable.Rows("measurement-scores.csv").Select(r => (int)ReferenceTable.Number(r[0]))];
        Check("scores", Classification.Of(correct, 40, cut, Statistic.Of(0.85)));
    }

    [Fact]
    public void Alpha_with_missing_answers_takes_covariances_pair_by_pair_as_psych_does()
        => Close("missing.alpha", Reliability.Of(Answers.Ability(complete: false)).Alpha, Same);

    [Fact]
    public void Correlations_of_topics_and_value_of_subscores_agree_with_psych_and_Sinharay()
    {
        DimensionReport report = Dimensions.Of(Answers.Ability(complete: true));
        int pair = 0;
        for (int a = 1; a <= 3; a++)
        {
            for (int b = a + 1; b <= 4; b++, pair++)
            {
                Close($"pair.{a}.{b}", report.Pairs[pair].Observed, Same);

                // psych's scoreItems reckons with mean scores and a weighted correlation matrix; the same figures to seven places.
                Close($"corrected.{a}.{b}", report.Pairs[pair].Corrected, 1e-7);
            }
        }

        for (int s = 1; s <= 4; s++)
        {
            Close($"prmse.own.{s}", report.Topics[s - 1].FromOwn, Same);
            Close($"prmse.total.{s}", report.Topics[s - 1].FromTotal, Same);
            Close($"prmse.both.{s}", report.Topics[s - 1].FromBoth, Same);
        }

        // By these figures only the rotations, the fourth area, have a score of their own that beats the total.
        Assert.Equal([false, false, false, true], report.Topics.Select(t => t.AddsValue!.Value));
        Assert.Contains("Area 4", report.Summary, StringComparison.Ordinal);
    }

    [Fact]
    public void Response_times_agree_with_a_mixed_model_with_a_spread_per_item_in_nlme()
    {
        string[][] rows = [.. ReferenceTable.Rows("measurement-times.csv")];
        ItemScores scores = new(
            [.. Enumerable.Range(1, 6).Select(j => new TestItem($"{j}", "Topic"))],
            [.. rows.Select((r, p) => new PersonAnswers($"{p + 1}", [.. r.Select(c => c.Length == 0
                ? new ItemAnswer(ItemScore.Omitted)
                : new ItemAnswer(ItemScore.Right, Seconds: ReferenceTable.Number(c)))]))]);
        ResponseTimeFit fit = ResponseTimeModel.Fit(scores, out _)!;

        // nlme stops by its own optimiser's tolerance; its likelihood may only be a hair lower.
        Assert.Equal(Answers.Figure("times.loglik"), fit.LogLikelihood, 1e-5);
        Assert.Equal(Answers.Figure("times.speedsd"), fit.SpeedSpread, 1e-3);
        for (int j = 1; j <= 6; j++)
        {
            Close($"times.beta.{j}", fit.Items[j - 1].LogSeconds, 1e-3);
            Close($"times.sigma.{j}", fit.Items[j - 1].Spread, 1e-3);
        }

        for (int p = 1; p <= 5; p++)
        {
            Assert.Equal(Answers.Figure($"times.slowness.{p}"), -fit.Persons[p - 1].Speed, 1e-3);
        }
    }

    private static ItemScores Scores(string set) => set == "math" ? Answers.MathExam() : Answers.Ability(complete: true);

    private static void Check(string set, ClassificationReport report)
    {
        int cut = report.Cut;
        Assert.Equal((int)Answers.Figure($"{set}.ll.effective"), report.EffectiveItems);
        Assert.Equal(Answers.Figure($"{set}.ll.parameters"), report.Parameters);
        Close($"{set}.ll.{cut}.accuracy", report.Accuracy, Quadrature);
        Close($"{set}.ll.{cut}.falsepass", report.FalsePass, Quadrature);
        Close($"{set}.ll.{cut}.consistency", report.Consistency, Quadrature);
        Close($"{set}.ll.{cut}.kappa", report.Kappa, Quadrature);
        Close($"{set}.huynh.{cut}", report.HuynhConsistency, Quadrature);
        Close($"{set}.huynhkappa.{cut}", report.HuynhKappa, Quadrature);
        Assert.Equal(1, report.Accuracy.Value!.Value + report.FalsePass.Value!.Value + report.FalseFail.Value!.Value, 1e-9);
    }

    private static void Close(string figure, Statistic statistic, double tolerance)
    {
        Assert.True(statistic.Known, $"{figure}: {statistic.Refusal}");
        Assert.Equal(Answers.Figure(figure), statistic.Value!.Value, tolerance);
    }
}
