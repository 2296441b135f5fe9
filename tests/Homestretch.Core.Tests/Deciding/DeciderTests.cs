using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Deciding;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Planning;

using NodaTime;

namespace Homestretch.Core.Tests.Deciding;

public class DeciderTests
{
    private static readonly ZonedDateTime From = PlannerTests.From;
    private static readonly LocalDate Booked = PlannerTests.ExamDay;
    private static readonly FreeTime Evenings = PlannerTests.Evenings();
    private static readonly Exam Exam = WithRetakeRule(
        SampleExams.OneSection(new PercentCut(65), SampleExams.Topic("A", 24), SampleExams.Topic("B", 14), SampleExams.Topic("C", 7)), new RetakeRule(45, 3));

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static ImmutableArray<Attempt> Attempts(int times = 1) => SampleExams.Diagnostic(("A", 8 * times, 14 * times), ("B", 4 * times, 8 * times), ("C", 3 * times, 5 * times));

    private static CandidateStanding Standing(ImmutableArray<Attempt> attempts) => StandingCalculator.Calculate(Exam, attempts, SampleExams.Today);

    private static Attempt Official(LocalDate date) => new("Someone", date.ToString(), AttemptKind.Official, date, [TopicCount.Exact("A", 10, 24)]);

    [Theory]
    [InlineData("2026-10-20", "2026-12-04")]
    [InlineData("2026-10-20 2026-06-01", "2026-12-04")]
    [InlineData("2026-10-20 2026-06-01 2026-02-01", "2027-02-01")]
    [InlineData("2026-10-20 2026-06-01 2025-11-01", "2026-12-04")]
    [InlineData("2026-10-20 2026-06-01 2026-02-01 2025-12-15", "2027-02-01")]
    public void The_earliest_retake_follows_waiting_time_and_yearly_limit(string sittings, string earliest)
    {
        LocalDate[] days = [.. sittings.Split(' ').Select(Day)];

        Assert.Equal(Day(earliest), new RetakeRule(45, 3).EarliestDate(days));
        Assert.Equal(Day("2026-12-04"), new RetakeRule(45, null).EarliestDate(days));
        Assert.Null(new RetakeRule(45, 3).EarliestDate([]));
    }

    [Fact]
    public void Later_dates_are_never_worse_and_the_first_good_enough_one_is_named()
    {
        DateAdvice advice = Compare(Attempts(), new SittingTerms { Target = 0.6 }, DateAdvisor.WeekByWeek(Booked, 6));

        Assert.Equal(7, advice.Options.Length);
        Assert.Equal(advice.Options.Select(o => o.PassChance).Order(), advice.Options.Select(o => o.PassChance));
        Assert.True(advice.Options[^1].PassChance > advice.Options[0].PassChance + 0.05);
        Assert.Equal(advice.Options.First(o => o.PassChance >= 0.6), advice.Best);
        Assert.Contains(advice.Best!.Date.ToString("uuuu-MM-dd", null), advice.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_option_has_the_pass_chance_of_its_own_plan()
    {
        CandidateStanding standing = Standing(Attempts());
        LocalDate later = Booked.PlusDays(14);
        DateOption option = Compare(Attempts(), new SittingTerms(), [later]).Options.Single(o => o.Date == later);
        StudyPlan plan = Planner.Plan(standing, Evenings, [], From, later, cancellation: Cancellation);

        Assert.Equal(plan.Outcome(Policy.Optimised).PassChance, option.PassChance);
        Assert.Equal(plan.Outcome(Policy.None).PassChance, option.NoStudy);
        Assert.Equal(plan.Outcome(Policy.Optimised).Minutes, option.StudyMinutes);
    }

    [Fact]
    public void The_owners_rules_bar_dates_and_say_so()
    {
        ImmutableArray<Attempt> retaker = [.. Attempts(), Official(new LocalDate(2026, 11, 10))];
        DateAdvice advice = Compare(retaker, new SittingTerms { LastDate = new LocalDate(2027, 1, 6), PostponeUntil = new LocalDate(2026, 12, 1) }, DateAdvisor.WeekByWeek(Booked, 4));

        Assert.Equal(new LocalDate(2026, 12, 25), advice.EarliestRetake);
        Assert.Equal(
            ["the retake rule allows none before 2026-12-25", "the retake rule allows none before 2026-12-25", null, null, "the exam may be sat until 2027-01-06 only"],
            advice.Options.Select(o => o.Barred));
        Assert.Null(advice.Best!.Barred);
    }

    [Fact]
    public void After_the_deadline_only_the_booked_date_is_left()
    {
        DateAdvice advice = Compare(Attempts(), new SittingTerms { PostponeUntil = new LocalDate(2026, 11, 20) }, DateAdvisor.WeekByWeek(Booked, 2));

        Assert.Equal([true, false, false], advice.Options.Select(o => o.Barred is null));
        Assert.Equal(Booked, advice.Best!.Date);
    }

    [Fact]
    public void No_date_allowed_is_said()
    {
        DateAdvice advice = Compare(Attempts(), new SittingTerms { LastDate = new LocalDate(2026, 12, 1) }, [Booked]);

        Assert.Null(advice.Best);
        Assert.Contains("None", advice.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Fees_are_the_move_and_the_chance_of_paying_again()
    {
        DateAdvice advice = Compare(Attempts(), new SittingTerms { PostponeFee = 40, RetakeFee = 200 }, DateAdvisor.WeekByWeek(Booked, 1));

        Assert.Equal(200 * (1 - advice.Options[0].PassChance), (double)advice.Options[0].ExpectedFees!.Value, 1e-6);
        Assert.Equal(40 + (200 * (1 - advice.Options[1].PassChance)), (double)advice.Options[1].ExpectedFees!.Value, 1e-6);
        Assert.Null(Compare(Attempts(), new SittingTerms(), [Booked]).Options[0].ExpectedFees);
    }

    [Fact]
    public void More_hours_a_week_help_until_they_do_not()
    {
        HoursAdvice weak = HoursAdvisor.Compare(Standing(Attempts()), Evenings, [], From, Booked, HoursAdvisor.Usual(Evenings), Cancellation);
        CandidateStanding strong = Standing(SampleExams.Diagnostic(("A", 40, 40), ("B", 30, 30), ("C", 20, 20)));
        HoursAdvice rest = HoursAdvisor.Compare(strong, Evenings, [], From, Booked, HoursAdvisor.Usual(Evenings), Cancellation);

        Assert.True(weak.Options[^1].PassChance > weak.Options[0].PassChance + 0.03);
        Assert.Single(weak.Options, o => o.Now);
        Assert.True(weak.EnoughWeeklyMinutes > FreeTimeScaling.WeeklyMinutes(Evenings) / 2);
        Assert.Equal(rest.Options[0].WeeklyMinutes, rest.EnoughWeeklyMinutes);
        Assert.Contains("rest", rest.Reason, StringComparison.Ordinal);
    }

    /// <summary>With a quiz on one topic every result can be gone through, each with the chance the posterior gives it.</summary>
    [Fact]
    public void The_value_of_a_quiz_agrees_with_going_through_every_result()
    {
        ImmutableArray<Attempt> attempts = Attempts();
        CandidateStanding standing = Standing(attempts);
        ProposedTest quiz = ProposedTest.Quiz(Exam, 0, 10);
        TestValue value = TestAdvisor.Value(standing, attempts, Evenings, [], From, Booked, quiz, results: 100, cancellation: Cancellation)!;

        // Ten items with going over them take 19 minutes: the first block of the first evening. Half of that counts as practice.
        Slot first = SlotFinder.Find(Evenings, [], From, Booked).Slots[0];
        StudyHistory practice = new(Exam, [new StudySession("", "A", first.Date, (int)Math.Round(quiz.Minutes / 2.0), StudyKind.PracticeItems)]);
        double[] marginal = standing.Posterior.Marginal(0);
        double form = Math.Sqrt(Math.Pow(standing.Posterior.FormSd, 2) + Math.Pow(StandingAssumptions.Default.TopicFormSd, 2));
        double all = 0;
        double expected = 0;
        for (int right = 0; right <= 10; right++)
        {
            double chance = 0;
            for (int z = -16; z <= 16; z++)
            {
                double density = Math.Exp(-0.5 * z * z / 16.0);
                chance += density * marginal.Select((w, g) => w * MathNet.Numerics.Distributions.Binomial.PMF(
                    0.25 + (0.75 / (1 + Math.Exp(-(standing.Posterior.Grid[g] + (form * z / 4.0))))), 10, right)).Sum();
            }

            CandidateStanding after = StandingCalculator.Calculate(
                Exam, [.. attempts, new Attempt("Someone", "quiz", AttemptKind.Quiz, first.Date, [TopicCount.Exact("A", right, 10)])], first.Date, study: practice);
            StudyPlan plan = Planner.Plan(after, Evenings, [new Interval(first.Start, first.End)], first.End.InZone(PlannerTests.Zone), Booked, cancellation: Cancellation);
            all += chance;
            expected += chance * plan.Outcome(Policy.Optimised).PassChance;
        }

        Assert.Equal(expected / all, value.WithTest, 0.004);
        Assert.InRange(value.Information, 0, 0.05);
        Assert.Equal(value.Without - value.Minutes + value.Information, value.WithTest, 1e-9);
        Assert.InRange(value.Doubt, 0.005, 0.3);
    }

    [Fact]
    public void A_result_moves_the_forecast_more_where_little_is_known_and_costs_study_time_where_much_is()
    {
        ImmutableArray<Attempt> little = SampleExams.Diagnostic(("A", 1, 2), ("B", 1, 2), ("C", 1, 2));
        ImmutableArray<Attempt> much = Attempts(40);
        ProposedTest exam = ProposedTest.PracticeExam(Exam);
        TestValue fromLittle = TestAdvisor.Value(Standing(little), little, Evenings, [], From, Booked, exam, cancellation: Cancellation)!;
        TestValue fromMuch = TestAdvisor.Value(Standing(much), much, Evenings, [], From, Booked, exam, cancellation: Cancellation)!;

        Assert.InRange(fromLittle.Information, 0, 1);
        Assert.True(fromLittle.Doubt > 2 * fromMuch.Doubt, $"{fromLittle} against {fromMuch}");
        Assert.True(fromMuch.Net < 0, "a test that teaches nothing new costs study time");
        Assert.StartsWith("Study instead", fromMuch.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void The_same_question_has_the_same_answer()
    {
        ImmutableArray<Attempt> attempts = Attempts();
        TestValue Ask() => TestAdvisor.Value(Standing(attempts), attempts, Evenings, [], From, Booked, ProposedTest.Quiz(Exam, 1, 8), results: 8, cancellation: Cancellation)!;

        Assert.Equal(Ask().WithTest, Ask().WithTest);
    }

    [Fact]
    public void A_test_that_does_not_fit_before_the_exam_has_no_value()
        => Assert.Null(TestAdvisor.Value(
            Standing(Attempts()), Attempts(), Evenings, [], From, From.Date.PlusDays(1), ProposedTest.PracticeExam(Exam), cancellation: Cancellation));

    private static DateAdvice Compare(ImmutableArray<Attempt> attempts, SittingTerms terms, ImmutableArray<LocalDate> dates)
        => DateAdvisor.Compare(Standing(attempts), [.. attempts.Where(a => a.Kind == AttemptKind.Official).Select(a => a.Date)], Evenings, [], From, Booked, dates, terms, Cancellation);

    private static Exam WithRetakeRule(Exam exam, RetakeRule rule) => new(exam.Name, null, null, exam.Sections, exam.Rule, null, rule, exam.Bands);

    private static LocalDate Day(string text) => NodaTime.Text.LocalDatePattern.Iso.Parse(text).Value;
}
