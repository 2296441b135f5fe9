using CsCheck;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Tests.Blueprints;

public class CutScoreTests
{
    [Theory]
    [InlineData(1, 75, 1)]
    [InlineData(49, 75, 49)]
    [InlineData(75, 75, 75)]
    [InlineData(76, 75, 76)]
    [InlineData(900, 75, 76)]
    public void A_count_is_the_count_and_out_of_reach_is_one_more_than_all(int correct, int items, int required) =>
        Assert.Equal(required, new CorrectCut(correct).RequiredCorrect(items));

    // By hand: percent of the items, rounded up; whole numbers on paper stay whole although 0.7 * 60 is not 42 in binary.
    [Theory]
    [InlineData(65, 75, 49)]
    [InlineData(62, 55, 35)]
    [InlineData(70, 60, 42)]
    [InlineData(70, 10, 7)]
    [InlineData(57, 100, 57)]
    [InlineData(29, 100, 29)]
    [InlineData(66.67, 3, 3)]
    [InlineData(66.6, 3, 2)]
    [InlineData(100, 75, 75)]
    [InlineData(0.1, 75, 1)]
    public void A_percentage_is_rounded_up(double percent, int items, int required) =>
        Assert.Equal(required, new PercentCut(percent).RequiredCorrect(items));

    // By hand: scaled = zero + (all - zero) * correct / items.
    [Theory]
    [InlineData(500, 200, 800, 60, 30)]
    [InlineData(501, 200, 800, 60, 31)]
    [InlineData(70, 0, 100, 60, 42)]
    [InlineData(800, 200, 800, 60, 60)]
    [InlineData(-10, -20, 20, 40, 10)]
    [InlineData(801, 200, 800, 60, 61)]
    [InlineData(200, 200, 800, 60, 0)]
    public void A_line_is_followed_to_the_mark(double atLeast, double atZero, double atAll, int items, int required) =>
        Assert.Equal(required, new ScaledLineCut(atLeast, atZero, atAll).RequiredCorrect(items));

    [Theory]
    [InlineData(500, 12)]
    [InlineData(450, 12)]
    [InlineData(400, 10)]
    [InlineData(201, 10)]
    [InlineData(800, 20)]
    [InlineData(801, 21)]
    public void A_table_gives_the_first_row_that_reaches_the_mark(double atLeast, int required) =>
        Assert.Equal(required, new ScaledTableCut(atLeast, [new(0, 200), new(10, 400), new(12, 500), new(20, 800)]).RequiredCorrect(20));

    [Fact]
    public void A_line_and_the_same_scale_as_a_table_agree()
    {
        Gen.Select(Gen.Int[1, 200], Gen.Int[1, 1000]).Sample((items, mark) =>
        {
            ScaledScore[] rows = [.. Enumerable.Range(0, items + 1).Select(c => new ScaledScore(c, Math.Round(1000.0 * c / items, 9)))];
            Assert.Equal(new ScaledTableCut(mark, [.. rows]).RequiredCorrect(items), new ScaledLineCut(mark, 0, 1000).RequiredCorrect(items));
        });
    }

    [Fact]
    public void The_required_count_reaches_the_percentage_and_one_less_does_not()
    {
        Gen.Select(Gen.Int[1, 100], Gen.Int[1, 2000]).Sample((percent, items) =>
        {
            int required = new PercentCut(percent).RequiredCorrect(items);
            Assert.True(required * 100 >= percent * items);
            Assert.True((required - 1) * 100 < percent * items);
        });
    }

    [Fact]
    public void A_higher_mark_never_needs_fewer_answers()
    {
        Gen.Select(Gen.Double[0.5, 100], Gen.Double[0.5, 100], Gen.Int[1, 500]).Sample((a, b, items) =>
            Assert.True(new PercentCut(Math.Min(a, b)).RequiredCorrect(items) <= new PercentCut(Math.Max(a, b)).RequiredCorrect(items)));
    }
}
