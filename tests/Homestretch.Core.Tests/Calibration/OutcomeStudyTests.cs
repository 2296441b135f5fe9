using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Calibration;

public class OutcomeStudyTests
{
    private static readonly LocalDate _exam = SampleExams.Today.PlusDays(20);
    private static readonly Exam _two = SampleExams.Of(
        OverallRule.EverySection,
        null,
        SampleExams.Section("First", new PercentCut(60), 4, SampleExams.Topic("A", 20), SampleExams.Topic("B", 10)),
        SampleExams.Section("Second", new CorrectCut(12), 4, SampleExams.Topic("C", 20)));

    [Fact]
    public void The_forecast_is_the_programs_own_from_what_came_before()
    {
        Attempt diagnostic = Test("Ann", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, ("A", 7, 10), ("B", 3, 5), ("C", 6, 10));
        Attempt quiz = Test("Ann", "quiz", AttemptKind.Quiz, SampleExams.Today.PlusDays(3), ("A", 4, 5));
        Attempt result = Test("Ann", "exam", AttemptKind.Official, _exam, ("A", 14, 20), ("B", 6, 10), ("C", 13, 20));
        Attempt later = Test("Ann", "later quiz", AttemptKind.Quiz, _exam.PlusDays(1), ("A", 0, 20));
        PersonOutcome person = Run(_two, [result, quiz, later, diagnostic]).People.Single();
        CandidateStanding standing = StandingCalculator.Calculate(_two, [diagnostic, quiz], _exam);
        Assert.Equal(ForecastCalculator.Calculate(standing).PassChance, person.PassChance, 1e-9);
        Assert.Equal(("Ann", "exam", _exam, 30, true), (person.Candidate, person.Attempt, person.Date, person.EvidenceItems, person.Passed));
    }

    // 18 of 30 is 60 %; 12 of 20 in the second section. By hand.
    [Theory]
    [InlineData(12, 6, 12, true)]
    [InlineData(12, 5, 20, false)]
    [InlineData(20, 10, 11, false)]
    public void Every_section_decides(int a, int b, int c, bool passed)
        => Assert.Equal(passed, Run(_two, Person("Ann", ("A", a, 20), ("B", b, 10), ("C", c, 20))).People.Single().Passed);

    // With half of the items: 60 % of 15 is 9; 12 of 20 is 6 of 10. With 7 items 12 of 20 is 4.2, so 5 are needed. By hand.
    [Theory]
    [InlineData(6, 10, 3, 5, 6, 10, true)]
    [InlineData(6, 10, 2, 5, 6, 10, false)]
    [InlineData(6, 10, 3, 5, 5, 10, false)]
    [InlineData(6, 10, 3, 5, 5, 7, true)]
    [InlineData(6, 10, 3, 5, 4, 7, false)]
    public void A_test_of_another_length_keeps_the_same_share_as_its_mark(int a, int itemsA, int b, int itemsB, int c, int itemsC, bool passed)
    {
        OutcomeStudyResult result = Run(_two, Person("Ann", ("A", a, itemsA), ("B", b, itemsB), ("C", c, itemsC)));
        Assert.Equal(1, result.OtherLengths);
        Assert.Equal(passed, result.People.Single().Passed);
    }

    [Fact]
    public void A_shorter_test_is_forecast_as_a_shorter_test()
    {
        double whole = Run(_two, Person("Ann", ("A", 20, 20), ("B", 10, 10), ("C", 20, 20))).People.Single().PassChance;
        double half = Run(_two, Person("Ann", ("A", 10, 10), ("B", 5, 5), ("C", 10, 10))).People.Single().PassChance;
        Assert.NotEqual(whole, half, 0.001);
    }

    [Fact]
    public void A_band_that_spans_the_mark_is_left_out_and_one_that_does_not_counts()
    {
        Attempt Report(string who, int low, int high) => new(
            who, "exam", AttemptKind.Official, _exam, [TopicCount.Exact("A", 12, 20), new TopicCount("B", null, low, high, 10), TopicCount.Exact("C", 12, 20)]);
        OutcomeStudyResult result = Run(_two, [Before("Ann"), Report("Ann", 5, 6), Before("Bea"), Report("Bea", 6, 8), Before("Cid"), Report("Cid", 3, 5)]);
        Assert.Equal([("Bea", true), ("Cid", false)], result.People.Select(p => (p.Candidate, p.Passed)));
        Assert.Equal([("Ann", LeftOutReason.Ambiguous)], result.LeftOut.Select(p => (p.Candidate, p.Reason)));
    }

    [Fact]
    public void Who_cannot_be_compared_is_named_with_the_reason()
    {
        OutcomeStudyResult result = Run(
            _two,
            [
                Before("No result"),
                Test("Nothing before", "exam", AttemptKind.Official, SampleExams.Today, ("A", 12, 20), ("B", 6, 10), ("C", 12, 20)),
                Test("nothing before", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, ("A", 1, 2)),
                Before("Part of it"),
                Test("Part of it", "exam", AttemptKind.Official, _exam, ("A", 12, 20), ("C", 12, 20)),
            ]);
        Assert.Empty(result.People);
        Assert.Null(result.Table);
        Assert.Equal(
            [("No result", LeftOutReason.NoOutcome, ""), ("Nothing before", LeftOutReason.NothingBefore, "2026-11-25"), ("Part of it", LeftOutReason.Incomplete, "B")],
            result.LeftOut.Select(p => (p.Candidate, p.Reason, p.Detail)));
    }

    [Fact]
    public void The_first_outcome_with_anything_before_it_counts_and_another_attempt_can_be_named()
    {
        Attempt first = Test("Ann", "first exam", AttemptKind.Official, SampleExams.Today, ("A", 1, 20), ("B", 1, 10), ("C", 1, 20));
        Attempt practice = Test("Ann", "Practice", AttemptKind.PracticeExam, SampleExams.Today.PlusDays(9), ("A", 20, 20), ("B", 10, 10), ("C", 20, 20));
        Attempt second = Test("Ann", "second exam", AttemptKind.Official, _exam, ("A", 1, 20), ("B", 1, 10), ("C", 20, 20));
        Assert.Equal("second exam", Run(_two, [first, practice, second]).People.Single().Attempt);
        PersonOutcome named = Run(_two, [first, practice, second], "practice").People.Single();
        Assert.Equal(("Practice", 50, true), (named.Attempt, named.EvidenceItems, named.Passed));
    }

    [Fact]
    public void From_ten_people_on_there_is_a_table_of_them()
    {
        Attempt[] nine = [.. Enumerable.Range(0, 9).SelectMany(i => Person($"Person {i}", ("A", 2 * i, 20), ("B", 5, 10), ("C", 2 * i, 20)))];
        Assert.Null(Run(_two, nine).Table);
        OutcomeStudyResult ten = Run(_two, [.. nine, .. Person("Person 9", ("A", 20, 20), ("B", 10, 10), ("C", 20, 20))]);
        Assert.Equal(10, ten.Table!.Count);
        Assert.Equal(10, ten.Table.Bins.Sum(b => b.People));
        Assert.Equal(ten.Passes / 10.0, ten.Table.BaseRate, 1e-12);
        Assert.Equal(ten.ExpectedPasses / 10, ten.Table.MeanForecast, 1e-12);
        Assert.InRange(ten.ExpectedPasses, ten.LowPasses, ten.HighPasses);
    }

    // Ten people with one and the same forecast pass as a binomial count: its quantiles.
    [Fact]
    public void The_range_of_passes_is_that_of_their_number_if_the_forecasts_are_right()
    {
        OutcomeStudyResult result = Run(_two, [.. Enumerable.Range(0, 10).SelectMany(i => Person($"Person {i}", ("A", 12, 20), ("B", 6, 10), ("C", 12, 20)))]);
        double chance = result.People[0].PassChance;
        double Below(int count) => MathNet.Numerics.Distributions.Binomial.CDF(chance, 10, count);
        Assert.Equal(10 * chance, result.ExpectedPasses, 1e-9);
        Assert.True(Below(result.LowPasses) >= 0.05 && (result.LowPasses == 0 || Below(result.LowPasses - 1) < 0.05));
        Assert.True(Below(result.HighPasses) >= 0.95 && Below(result.HighPasses - 1) < 0.95);
    }

    [Fact]
    public void Marks_agree_with_the_exams_own_rule_for_any_counts()
        => Gen.Select(Gen.Int[0, 20], Gen.Int[0, 10], Gen.Int[0, 20]).Sample(
            counts =>
            {
                bool passed = Run(_two, Person("Ann", ("A", counts.Item1, 20), ("B", counts.Item2, 10), ("C", counts.Item3, 20))).People.Single().Passed;
                Assert.Equal(counts.Item1 + counts.Item2 >= 18 && counts.Item3 >= 12, passed);
            },
            iter: 30);

    private static OutcomeStudyResult Run(Exam exam, IEnumerable<Attempt> attempts, string? outcome = null)
        => OutcomeStudy.Run(exam, attempts, outcome, cancellation: TestContext.Current.CancellationToken);

    private static Attempt Before(string who) => Test(who, "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, ("A", 6, 10), ("B", 3, 5), ("C", 5, 10));

    private static Attempt[] Person(string who, params (string Topic, int Correct, int Items)[] result)
        => [Before(who), Test(who, "exam", AttemptKind.Official, _exam, result)];

    private static Attempt Test(string who, string name, AttemptKind kind, LocalDate date, params (string Topic, int Correct, int Items)[] counts)
        => new(who, name, kind, date, [.. counts.Select(c => (Observation)TopicCount.Exact(c.Topic, c.Correct, c.Items))]);
}
