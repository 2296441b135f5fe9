using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement.Equating;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Measurement.Equating;

/// <summary>How a test differs from the exam, learned from people who took both.</summary>
public class LearnedFormsTests
{
    private static readonly Exam Two = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 30), SampleExams.Topic("B", 20));

    private static readonly StandingAssumptions Exact = StandingAssumptions.Default with { OfficialFormSd = 0 };

    [Theory]
    [InlineData(0.4)]
    [InlineData(-0.3)]
    [InlineData(0)]
    public void A_difference_put_in_is_found_again(double truth)
    {
        FormEstimate estimate = FormEstimate.Of(Two, Both(Simulated(4000, truth, 0, 1)), secondIsExam: true, Exact);

        // Two percent of the difference for the approximation to the average over people.
        Assert.Equal(truth, estimate.Difference!.Logits, (3 * estimate.Difference.Sd!.Value) + (0.02 * Math.Abs(truth)));
        Assert.InRange(estimate.Difference.Sd.Value, 0.001, 0.03);
        Assert.Equal(4000, estimate.Difference.People);
    }

    [Fact]
    public void The_standard_error_is_the_spread_over_groups_of_people()
    {
        FormDifference[] estimates = [.. Enumerable.Range(1, 300).Select(seed => FormEstimate.Of(Two, Both(Simulated(60, 0.3, 0, seed)), secondIsExam: true, Exact).Difference!)];
        double mean = estimates.Average(e => e.Logits);
        double spread = Math.Sqrt(estimates.Sum(e => (e.Logits - mean) * (e.Logits - mean)) / (estimates.Length - 1));

        // 300 groups give a standard deviation to 4 %.
        Assert.Equal(1, estimates.Average(e => e.Sd!.Value) / spread, 0.12);
    }

    [Fact]
    public void The_exam_to_come_is_one_more_of_its_forms()
    {
        BothTests both = Both(Simulated(200, 0.3, 0, 1));
        double other = FormEstimate.Of(Two, both, secondIsExam: false).Difference!.Sd!.Value;
        double exam = FormEstimate.Of(Two, both, secondIsExam: true).Difference!.Sd!.Value;
        Assert.Equal(Math.Sqrt((other * other) + Math.Pow(StandingAssumptions.Default.OfficialFormSd, 2)), exam, 1e-12);
    }

    [Fact]
    public void What_is_learned_is_used_for_everyone_who_took_that_test()
    {
        ImmutableArray<Attempt> cohort = Simulated(50, 0.4, 3, 2);
        Attempt now = Sitting("Someone new", "PRACTICE a", AttemptKind.PracticeExam, SampleExams.Today, (20, 30), (10, 20));
        Attempt otherLength = now with { Candidate = "Someone else", Observations = [TopicCount.Exact("A", 3, 10), TopicCount.Exact("B", 3, 10)] };
        Attempt otherTest = now with { Candidate = "A third", Name = "practice B" };
        ImmutableArray<Attempt> with = LearnedForms.Apply(Two, [.. cohort, now, otherLength, otherTest]);

        FormDifference learned = with[^3].Form!;
        Assert.Equal(50, learned.People);
        Assert.InRange(learned.Logits, 0.1, 0.7);
        Assert.Null(with[^2].Form);
        Assert.Null(with[^1].Form);
        Assert.All(with.Where(a => a.Kind == AttemptKind.Official), a => Assert.Null(a.Form));
        Assert.All(with.Take(100).Where(a => a.Kind != AttemptKind.Official), a => Assert.Equal(learned, a.Form));
    }

    [Fact]
    public void What_is_stated_wins()
    {
        FormDifference stated = FormDifference.OfPoints(-0.05, 0.01, 0.25);
        Attempt now = Sitting("Someone new", "practice A", AttemptKind.PracticeExam, SampleExams.Today, (20, 30), (10, 20)) with { Form = stated };
        Assert.Equal(stated, LearnedForms.Apply(Two, [.. Simulated(50, 0.4, 3, 2), now])[^1].Form);
    }

    [Fact]
    public void Too_little_is_no_ground_to_learn_from()
    {
        Assert.All(LearnedForms.Apply(Two, Simulated(29, 0.4, 3, 2)), a => Assert.Null(a.Form));

        // Three weeks of study lie between.
        Assert.All(LearnedForms.Apply(Two, Simulated(60, 0.4, 21, 2)), a => Assert.Null(a.Form));
        Assert.Empty(LearnedForms.Apply(Two, []));

        ImmutableArray<Attempt> oneTopic = [.. Simulated(60, 0.4, 3, 2).Select(a => a.Kind == AttemptKind.Official ? a : a with { Observations = a.Observations[..1] })];
        Assert.All(LearnedForms.Apply(Two, oneTopic), a => Assert.Null(a.Form));
        Assert.Equal(
            "Not everybody has results on all topics in both tests (B missing), so their difference would be one of content.",
            FormEstimate.Of(Two, Both(oneTopic), secondIsExam: true).Refusal);

        ImmutableArray<Attempt> allRight = [.. Simulated(60, 0.4, 3, 2).Select(a => a.Kind == AttemptKind.Official
            ? a with { Observations = [TopicCount.Exact("A", 30, 30), TopicCount.Exact("B", 20, 20)] }
            : a)];
        Assert.StartsWith("On one of the tests nearly everything was answered correctly", FormEstimate.Of(Two, Both(allRight), secondIsExam: true).Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void People_who_cannot_be_compared_are_counted()
    {
        LocalDate day = SampleExams.Today;
        ImmutableArray<Attempt> attempts =
        [
            Sitting("Near", "practice A", AttemptKind.PracticeExam, day.PlusDays(-40), (1, 30), (1, 20)),
            Sitting("Near", "practice A again", AttemptKind.PracticeExam, day.PlusDays(-3), (20, 30), (10, 20)),
            Sitting("Near", "exam", AttemptKind.Official, day, (18, 30), (9, 20)),
            Sitting("Far", "practice A", AttemptKind.PracticeExam, day.PlusDays(-8), (20, 30), (10, 20)),
            Sitting("FAR", "exam", AttemptKind.Official, day, (18, 30), (9, 20)),
            Sitting("Bands", "practice A", AttemptKind.PracticeExam, day, (20, 30), (10, 20)),
            new("Bands", "exam", AttemptKind.Official, day, [new TopicCount("A", null, 13, 18, 30), new TopicCount("B", null, 9, 12, 20)]),
            Sitting("Short", "practice A", AttemptKind.PracticeExam, day, (10, 15), (5, 10)),
            Sitting("Short", "exam", AttemptKind.Official, day, (18, 30), (9, 20)),
            Sitting("Once", "practice A", AttemptKind.PracticeExam, day, (20, 30), (10, 20)),
            Sitting("Also near", "exam", AttemptKind.Official, day.PlusDays(-7), (18, 30), (9, 20)),
            Sitting("Also near", "practice A", AttemptKind.PracticeExam, day, (21, 30), (11, 20)),
        ];
        BothTests both = BothTests.Find(attempts, a => a.Name.StartsWith("practice A", StringComparison.Ordinal), a => a.Kind == AttemptKind.Official);

        Assert.Equal(["Near", "Also near"], both.People.Select(p => p.First.Candidate));
        Assert.Equal("practice A again", both.People[0].First.Name);
        Assert.Equal([3, 7], both.People.Select(p => p.DaysApart));
        Assert.Equal((50, 50), (both.FirstItems, both.SecondItems));
        Assert.Equal((1, 1, 1), (both.OnlyBands, both.TooFarApart, both.OtherLength));
        Assert.Equal("Only 2 people took both tests; equating needs at least 30.", Assert.Throws<Homestretch.Core.Measurement.UnsuitableDataException>(both.Scores).Message);
    }

    private static BothTests Both(ImmutableArray<Attempt> attempts)
        => BothTests.Find(attempts, a => a.Kind == AttemptKind.PracticeExam, a => a.Kind == AttemptKind.Official);

    // People of the model's own kind; practice A is easier by this many logits, and was taken so many days before the exam.
    private static ImmutableArray<Attempt> Simulated(int people, double ease, int days, int seed)
    {
        Random random = new(seed);
        MathNet.Numerics.Distributions.Normal normal = new(0, 1, random);
        ImmutableArray<Attempt>.Builder attempts = ImmutableArray.CreateBuilder<Attempt>(2 * people);
        for (int p = 0; p < people; p++)
        {
            double overall = normal.Sample();
            double a = overall + (0.7 * normal.Sample());
            double b = overall + (0.7 * normal.Sample());
            attempts.Add(Sitting($"Person {p}", "practice A", AttemptKind.PracticeExam, SampleExams.Today.PlusDays(-days), (Right(a + ease, 30), 30), (Right(b + ease, 20), 20)));
            attempts.Add(Sitting($"Person {p}", "exam", AttemptKind.Official, SampleExams.Today, (Right(a, 30), 30), (Right(b, 20), 20)));
        }

        return attempts.ToImmutable();

        int Right(double ability, int items)
            => MathNet.Numerics.Distributions.Binomial.Sample(random, 0.25 + (0.75 / (1 + Math.Exp(-ability))), items);
    }

    private static Attempt Sitting(string candidate, string name, AttemptKind kind, LocalDate day, (int Correct, int Items) a, (int Correct, int Items) b)
        => new(candidate, name, kind, day, [TopicCount.Exact("A", a.Correct, a.Items), TopicCount.Exact("B", b.Correct, b.Items)]);
}
