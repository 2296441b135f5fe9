using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>The pass chance over time, as a picture and in words.</summary>
public sealed class PassHistoryTests
{
    private static readonly ImmutableArray<PassMoment> _week =
    [
        new(new LocalDateTime(2026, 11, 25, 8, 0), 0.62, 0.30, "Your first plan."),
        new(new LocalDateTime(2026, 11, 27, 19, 0), 0.58, 0.29, "Learn Pests: missed."),
        new(new LocalDateTime(2026, 11, 30, 20, 0), 0.71, 0.41, "A short quiz: 8 of 10 on <Pests>."),
    ];

    [Fact]
    public void EveryMomentIsInTheTableWithWhatHadHappened()
    {
        XElement figure = XElement.Parse(PassHistory.Html(_week));

        string[][] rows = [.. figure.Descendants("tbody").Single().Elements("tr").Select(r => r.Elements().Select(c => c.Value.Replace('\u00A0', ' ')).ToArray())];
        Assert.Equal(["1. Wed 25 Nov, 08:00", "62 %", "30 %", "Your first plan."], rows[0]);
        Assert.Equal(["3. Mon 30 Nov, 20:00", "71 %", "41 %", "A short quiz: 8 of 10 on <Pests>."], rows[2]);
    }

    [Fact]
    public void HigherChancesStandHigherAndLaterMomentsFurtherRight()
    {
        XElement[] marks = [.. XElement.Parse(PassHistory.Html(_week)).Descendants("circle")];
        double[] x = [.. marks.Select(m => (double)m.Attribute("cx")!)];
        double[] y = [.. marks.Select(m => (double)m.Attribute("cy")!)];

        Assert.Equal(x.Order(), x);
        Assert.True(y[2] < y[0] && y[0] < y[1]);

        // By time: two and a half days, then three.
        Assert.Equal((_week[1].At - _week[0].At).ToDuration().TotalHours / (_week[2].At - _week[0].At).ToDuration().TotalHours, (x[1] - x[0]) / (x[2] - x[0]), 2);
    }

    [Theory]
    [InlineData(1, "The pass chance with the first plan is 62 %.")]
    [InlineData(2, "The pass chance with the plan went from 62 % on Wed 25 Nov to 58 % on Fri 27 Nov.")]
    public void TheSentenceComparesFirstAndLast(int count, string expected) => Assert.Equal(expected, PassHistory.Sentence(_week[..count]));

    [Fact]
    public void TheSentenceOfOneDayNamesItOnce()
        => Assert.Equal("The pass chance with the plan went from 62 % to 71 % on Wed 25 Nov.", PassHistory.Sentence([_week[0], _week[2] with { At = new(2026, 11, 25, 9, 0) }]));

    [Fact]
    public void ManyMomentsInOneHourKeepTheirNumbersApart()
    {
        ImmutableArray<PassMoment> many = [.. Enumerable.Range(0, 40).Select(i => new PassMoment(new LocalDateTime(2026, 11, 25, 8, 0).PlusMinutes(i * i), 0.5, 0.3, "x"))];
        double[] numbers = [.. XElement.Parse(PassHistory.Html(many)).Descendants("text").Where(t => (string?)t.Attribute("class") == "hs-history-number").Select(t => (double)t.Attribute("x")!)];

        Assert.All(numbers.Zip(numbers.Skip(1)), pair => Assert.True(pair.First - pair.Second >= 14.9));
        Assert.True(numbers.Length > 5);
    }
}
