using System.Globalization;

using Homestretch.Files.Pictures;

namespace Homestretch.Files.Tests.Pictures;

public class FiguresTests
{
    [Theory]
    [InlineData(0.7149, "71 %")]
    [InlineData(0.715, "72 %")]
    [InlineData(0, "under 1 %")]
    [InlineData(0.0049, "under 1 %")]
    [InlineData(0.005, "1 %")]
    [InlineData(0.9949, "99 %")]
    [InlineData(0.995, "over 99 %")]
    [InlineData(1, "over 99 %")]
    public void Percent(double share, string words) => Assert.Equal(words, Figures.Percent(share));

    [Theory]
    [InlineData(0.71, "about 7 of 10")]
    [InlineData(0.095, "about 1 of 10")]
    [InlineData(0.053, "about 5 of 100")]
    [InlineData(0.03, "about 3 of 100")]
    [InlineData(0.001, "fewer than 1 of 100")]
    [InlineData(0.904, "about 9 of 10")]
    [InlineData(0.93, "about 93 of 100")]
    [InlineData(0.97, "about 97 of 100")]
    [InlineData(0.999, "more than 99 of 100")]
    public void OutOf(double chance, string words) => Assert.Equal(words, Figures.OutOf(chance));

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0.02, 0)]
    [InlineData(0.71, 7)]
    [InlineData(0.97, 9)]
    [InlineData(0.999, 10)]
    public void Ten_marks_never_promise_a_pass(double chance, int filled) => Assert.Equal(filled, Figures.Tenths(chance));

    [Theory]
    [InlineData(0.031, "+3 points")]
    [InlineData(0.01, "+1 point")]
    [InlineData(-0.02, "\u22122 points")]
    [InlineData(0.004, "+0.4 points")]
    [InlineData(0.0096, "+1 point")]
    [InlineData(0.0001, "no gain")]
    [InlineData(-0.004, "\u22120.4 points")]
    public void Points(double difference, string words) => Assert.Equal(words, Figures.Points(difference));

    [Theory]
    [InlineData(0.42, "+0.4 items")]
    [InlineData(1.02, "+1 item")]
    [InlineData(0.03, "under 0.1 items")]
    [InlineData(0, "no gain")]
    [InlineData(-0.6, "\u22120.6 items")]
    public void ItemGain(double items, string words) => Assert.Equal(words, Figures.ItemGain(items));

    [Theory]
    [InlineData(0, "0 min")]
    [InlineData(40, "40 min")]
    [InlineData(60, "1 h")]
    [InlineData(80, "1 h 20 min")]
    [InlineData(1500, "25 h")]
    public void Duration(int minutes, string words) => Assert.Equal(words, Figures.Duration(minutes));

    [Fact]
    public void Figures_do_not_change_with_the_computer_s_language()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = new CultureInfo("de-DE");
            Assert.Equal("+0.4 items", Figures.ItemGain(0.4));
            Assert.Contains("viewBox=\"0 0 260 28\"", PassChance.Svg(0.5, null, "x"), StringComparison.Ordinal);
            Assert.DoesNotContain(",5\"", ScoreField.Svg(SampleReports.ThreeWeeks, "x", 900), StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }
}
