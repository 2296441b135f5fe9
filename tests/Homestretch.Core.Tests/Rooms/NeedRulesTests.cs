using CsCheck;

using Homestretch.Core.Rooms;

using NodaTime;

namespace Homestretch.Core.Tests.Rooms;

public class NeedRulesTests
{
    private static readonly LocalDate Today = new(2026, 11, 28);

    [Fact]
    public void Somebody_on_the_way_needs_nobody()
    {
        CandidateState state = NeedRules.On(Today, Calm());

        Assert.Empty(state.Needs);
        Assert.Equal((18, 0.7, 0.0), (state.DaysLeft, state.PassChance, state.Change));
        Assert.Equal((7 * 60, 7 * 45), (state.Planned, state.Done));
    }

    [Theory]
    [InlineData(1, false, NeedKind.NoResult)]
    [InlineData(30, false, NeedKind.NoResult)]
    [InlineData(1, true, null)]
    [InlineData(0, false, null)]
    public void After_the_exam_only_the_result_is_missing(int daysAgo, bool hasResult, NeedKind? need)
    {
        CandidateFigures figures = Calm() with { ExamDay = Today.PlusDays(-daysAgo), HasResult = hasResult, HasLink = daysAgo == 0, HeardOn = Today };

        Assert.Equal(need is { } kind ? [new Need(kind, daysAgo)] : Array.Empty<Need>(), NeedRules.On(Today, figures).Needs);
    }

    [Theory]
    [InlineData(7, 0.49, true)]
    [InlineData(7, 0.5, false)]
    [InlineData(8, 0.1, false)]
    [InlineData(0, 0.1, true)]
    public void A_near_exam_below_even_calls_for_the_coach(int left, double chance, bool expected)
    {
        CandidateState state = NeedRules.On(Today, Calm(chance) with { ExamDay = Today.PlusDays(left) });

        Assert.Equal(expected ? [new Need(NeedKind.BelowEven, left)] : Array.Empty<Need>(), state.Needs);
    }

    [Theory]
    [InlineData(0.80, 0.70, 7, true)]
    [InlineData(0.80, 0.71, 7, false)]
    [InlineData(0.70, 0.80, 7, false)]
    [InlineData(0.80, 0.60, 8, false)]
    public void A_fall_counts_for_a_week(double before, double after, int daysAgo, bool expected)
    {
        // One plan long ago, one so many days ago; where that is more than a week, the fall is known.
        LocalDate first = Today.PlusDays(-20);
        CandidateFigures figures = With(first, day => new(60, 60, 0, day == first ? before : day == Today.PlusDays(-daysAgo + 1) ? after : null));

        Assert.Equal(expected, NeedRules.On(Today, figures).Needs.Any(n => n.Kind == NeedKind.Fallen && n.Amount == 10));
    }

    [Fact]
    public void A_first_plan_of_this_week_is_what_the_change_is_measured_from()
    {
        CandidateFigures figures = With(Today.PlusDays(-3), day => new(60, 60, 0, day == Today.PlusDays(-3) ? 0.9 : day == Today ? 0.75 : null));

        CandidateState state = NeedRules.On(Today, figures);

        Assert.Equal(-0.15, state.Change, 9);
        Assert.Equal([new Need(NeedKind.Fallen, 15)], state.Needs);
    }

    [Theory]
    [InlineData(2, false)]
    [InlineData(3, true)]
    public void Missed_sessions_of_seven_days_and_today_count(int missed, bool expected)
    {
        CandidateFigures figures = With(Today.PlusDays(-20), day => new(60, 30, day == Today || day == Today.PlusDays(-7) || (day == Today.PlusDays(-1) && missed == 3) ? 1 : day == Today.PlusDays(-8) ? 5 : 0, 0.7));

        Assert.Equal(expected ? [new Need(NeedKind.Missed, 3)] : Array.Empty<Need>(), NeedRules.On(Today, figures).Needs);
    }

    [Theory]
    [InlineData(5, 60, true, false)]
    [InlineData(6, 60, true, true)]
    [InlineData(6, 0, true, false)]
    [InlineData(6, 60, false, false)]
    public void Silence_counts_for_somebody_who_had_something_to_do_and_a_way_to_say_so(int days, int planned, bool hasLink, bool expected)
    {
        CandidateFigures figures = With(Today.PlusDays(-20), day => new(day < Today ? planned : 60, 0, 0, 0.7)) with { HeardOn = Today.PlusDays(-days), HasLink = hasLink };

        Assert.Equal(expected, NeedRules.On(Today, figures).Needs.Contains(new Need(NeedKind.Silent, days)));
        Assert.Equal(!hasLink, NeedRules.On(Today, figures).Needs.Contains(new Need(NeedKind.NoLink, 0)));
    }

    [Fact]
    public void No_plan_and_a_plan_without_a_block_to_come_call_for_the_coach()
    {
        CandidateFigures none = With(Today, _ => default);
        CandidateFigures empty = With(Today.PlusDays(-5), day => new(day < Today ? 60 : 0, 60, 0, 0.7));

        Assert.Equal([new Need(NeedKind.NoPlan, 0)], NeedRules.On(Today, none).Needs);
        Assert.Null(NeedRules.On(Today, none).PassChance);
        Assert.Equal([new Need(NeedKind.NoPlan, 0)], NeedRules.On(Today, empty).Needs);
        Assert.Empty(NeedRules.On(Today, empty with { ExamDay = Today.PlusDays(1) }).Needs);
    }

    [Fact]
    public void The_most_pressing_comes_first()
    {
        CandidateFigures pressing = Calm(0.3) with { ExamDay = Today.PlusDays(3), HasLink = false };
        CandidateFigures later = Calm() with { HasLink = false };
        CandidateFigures over = Calm() with { ExamDay = Today.PlusDays(-2), HasResult = true };

        Assert.Equal([NeedKind.BelowEven, NeedKind.NoLink], NeedRules.On(Today, pressing).Needs.Select(n => n.Kind));
        Assert.Equal([pressing, later, Calm(), over], new[] { over, Calm(), later, pressing }.OrderBy(f => NeedRules.On(Today, f).Order), (a, b) => a.ExamDay == b.ExamDay && a.HasLink == b.HasLink);
    }

    [Fact]
    public void Days_that_were_written_are_read_as_the_same()
        => Gen.Select(Gen.Int[0, 600], Gen.Int[0, 600], Gen.Int[0, 9], Gen.Int[-500, 1000], (planned, done, missed, chance) => new DayFigures(planned, done, missed, chance < 0 ? null : chance / 1000.0)).Array[0, 40]
            .Sample(days =>
            {
                FiguresByDay read = FiguresByDay.Read(Today, new FiguresByDay(Today, [.. days]).Write());
                return Enumerable.Range(0, days.Length).All(i => read.Days.ElementAtOrDefault(i) == days[i]);
            });

    [Theory]
    [InlineData("1,2,3")]
    [InlineData("1,2,3,4,5")]
    [InlineData("1,2,x,4")]
    public void Other_text_is_refused(string text) => Assert.Throws<FormatException>(() => FiguresByDay.Read(Today, text));

    private static CandidateFigures Calm(double chance = 0.7) => With(Today.PlusDays(-20), _ => new(60, 45, 0, chance));

    private static CandidateFigures With(LocalDate first, Func<LocalDate, DayFigures> day)
        => new(Today.PlusDays(18), Today, HasLink: true, HasResult: false, new(first, [.. Enumerable.Range(0, 60).Select(i => day(first.PlusDays(i)))]));
}
