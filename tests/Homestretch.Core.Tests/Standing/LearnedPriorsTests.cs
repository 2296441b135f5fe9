using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Standing;

/// <summary>Priors learned on one test: what they mean for answers to that test, to another one, and to the exam.</summary>
public class LearnedPriorsTests
{
    private static readonly Exam One = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10));

    private static readonly StandingAssumptions Learned = StandingAssumptions.Default with
    {
        MeanAbility = 0.3,
        AbilitySd = 0.9,
        TopicSd = 0.5,
        TopicFormSd = 0,
        FormSd = 0,
        LearnedOn = "autumn diagnostic",
        ItemSpread = 0.8,
        TopicShifts = ImmutableDictionary<string, double>.Empty.Add("A", -0.4),
        ExamShifts = ImmutableDictionary<string, double>.Empty.Add("A", 0.35),
        ExamShiftSds = ImmutableDictionary<string, double>.Empty.Add("A", 0.3),
    };

    [Theory]
    [InlineData("Autumn Diagnostic", 0, 0)]
    [InlineData("spring diagnostic", 0.35, 0.3)]
    public void Level_and_expected_score_equal_brute_force_integration(string test, double shift, double spread)
    {
        const int Right = 5;
        const int Items = 8;
        CandidateStanding standing = StandingCalculator.Calculate(One, Of(test, Right, Items), SampleExams.Today, Learned);

        // Another test is eight fresh items: their own draw, and what is not known of the cohort's test against the pool. The exam's ten likewise.
        double drawn = spread == 0 ? 0 : Math.Sqrt((spread * spread) + (0.8 * 0.8 / Items));
        double examDrawn = Math.Sqrt((0.3 * 0.3) + (0.8 * 0.8 / 10));
        double prior = Math.Sqrt((0.9 * 0.9) + (0.5 * 0.5));
        double total = 0, level = 0, exam = 0;
        for (double ability = -6; ability <= 6.6; ability += 0.03)
        {
            double likelihood = Over(drawn, e => Math.Pow(Chance(ability - 0.4 + shift + e), Right) * Math.Pow(1 - Chance(ability - 0.4 + shift + e), Items - Right));
            double weight = Math.Exp(-0.5 * Math.Pow((ability - 0.3) / prior, 2)) * likelihood;
            total += weight;
            level += weight * Over(0.3, e => Chance(ability - 0.4 + 0.35 + e));
            exam += weight * Over(examDrawn, e => Chance(ability - 0.4 + 0.35 + e));
        }

        Assert.Equal(level / total, standing.Topics[0].Level.Mean, 1e-6);
        Assert.Equal(10 * exam / total, ForecastCalculator.Calculate(standing).ExpectedCorrect, 1e-5);
    }

    [Fact]
    public void The_same_answers_say_less_when_they_are_to_another_test()
    {
        Level same = StandingCalculator.Calculate(One, Of("autumn diagnostic", 8, 8), SampleExams.Today, Learned).Topics[0].Level;
        Level other = StandingCalculator.Calculate(One, Of("quiz", 8, 8), SampleExams.Today, Learned).Topics[0].Level;
        Assert.True(other.Mean < same.Mean - 0.01, $"{other.Mean} against {same.Mean}");
    }

    [Fact]
    public void Sections_stand_where_their_topics_stand_on_the_exams_items()
    {
        CandidateStanding standing = StandingCalculator.Calculate(One, Of("autumn diagnostic", 5, 8), SampleExams.Today, Learned);
        Level topic = standing.Topics[0].Level;
        Level section = standing.Sections[0].Level;
        Assert.Equal(topic.Mean, section.Mean, 1e-9);
        Assert.Equal([topic.Low, topic.High, topic.Chances.Weak, topic.Chances.Strong], [section.Low, section.High, section.Chances.Weak, section.Chances.Strong], (a, b) => Math.Abs(a - b) < 0.002);
    }

    [Fact]
    public void A_bank_of_the_cohorts_test_speaks_its_scale_and_another_bank_does_not()
    {
        ImmutableArray<Attempt> attempts = [new Attempt("Someone", "autumn diagnostic", AttemptKind.Diagnostic, SampleExams.Today, [.. Enumerable.Range(1, 8).Select(i => (Observation)new ItemResponse("A", null, $"{i}", i <= 5, null, null))])];
        ItemBank Bank(string? test) => new([.. Enumerable.Range(1, 8).Select(i => new BankItem("A", $"{i}", ItemModel.Rasch, new ItemCurve(1, 0.7, 0), Test: test))]);
        double Mean(ItemBank? bank) => StandingCalculator.Calculate(One, attempts, SampleExams.Today, Learned, bank).Topics[0].Level.Mean;

        // Equal items add nothing to counts, so the two must agree where the scale is the same.
        Assert.Equal(Mean(null), Mean(Bank("autumn diagnostic")), 1e-6);
        double other = StandingCalculator.Calculate(One, Of("spring diagnostic", 5, 8), SampleExams.Today, Learned).Topics[0].Level.Mean;
        Assert.Equal(other, Mean(Bank(null)), 1e-6);
    }

    private static ImmutableArray<Attempt> Of(string test, int right, int items)
        => [new Attempt("Someone", test, AttemptKind.Diagnostic, SampleExams.Today, [TopicCount.Exact("A", right, items)])];

    private static double Chance(double theta) => 0.25 + (0.75 / (1 + Math.Exp(-theta)));

    private static double Over(double sd, Func<double, double> value)
    {
        if (sd == 0)
        {
            return value(0);
        }

        double total = 0, sum = 0;
        for (double z = -7; z <= 7; z += 0.1)
        {
            double weight = Math.Exp(-0.5 * z * z);
            total += weight;
            sum += weight * value(z * sd);
        }

        return sum / total;
    }
}
