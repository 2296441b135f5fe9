using System.Collections.Immutable;
using System.Xml.Linq;

using Homestretch.Core.Deciding;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Files.Tests.Pictures;

/// <summary>The pass chance against the exam date, as a picture and in words.</summary>
public sealed class DateChancesTests
{
    private static readonly DateOption _booked = new(new LocalDate(2026, 12, 16), true, 0.62, 0.30, 1200, null, null);
    private static readonly DateOption _week = new(new LocalDate(2026, 12, 23), false, 0.71, 0.30, 1500, null, null);
    private static readonly DateOption _month = new(new LocalDate(2027, 1, 13), false, 0.80, 0.29, 2400, null, "after <the last> date");

    [Fact]
    public void Every_date_is_in_the_table_with_its_note()
    {
        XElement figure = Draw(_booked, _week, _month);

        string[][] rows = [.. figure.Descendants("tbody").Single().Elements("tr").Select(r => r.Elements().Select(c => c.Value.Replace('\u00A0', ' ')).ToArray())];
        Assert.Equal(["Wednesday 16 December 2026", "62 %", "30 %", "booked"], rows[0]);
        Assert.Equal(["Wednesday 23 December 2026", "71 %", "30 %", "what the figures speak for"], rows[1]);
        Assert.Equal(["Wednesday 13 January 2027", "80 %", "29 %", "after <the last> date"], rows[2]);
    }

    [Fact]
    public void Later_stands_further_right_by_days_and_likelier_higher()
    {
        XElement figure = Draw(_month with { Barred = null }, _booked, _week);
        XElement[] dots = [.. figure.Descendants("circle").Where(c => (string?)c.Attribute("class") == "hs-history-mark")];
        double[] x = [.. dots.Select(d => (double)d.Attribute("cx")!)];
        double[] y = [.. dots.Select(d => (double)d.Attribute("cy")!)];

        Assert.Equal(x.Order(), x);
        Assert.Equal(y.OrderDescending(), y);
        Assert.Equal(7.0 / 28, (x[1] - x[0]) / (x[2] - x[0]), 2);
        XElement ring = Assert.Single(figure.Descendants("circle"), c => (string?)c.Attribute("class") == "hs-dates-ring");
        Assert.Equal(x[0], (double)ring.Attribute("cx")!);
        Assert.DoesNotContain(figure.Descendants("path"), p => (string?)p.Attribute("class") == "hs-dates-barred");
    }

    [Fact]
    public void A_date_that_is_not_allowed_is_a_cross_and_said()
    {
        XElement figure = Draw(_booked, _month);

        Assert.Single(figure.Descendants("path"), p => (string?)p.Attribute("class") == "hs-dates-barred");
        Assert.Contains("Crosses: dates that the rules do not allow.", figure.Element("figcaption")!.Value, StringComparison.Ordinal);
        Assert.DoesNotContain("80 %", DateChances.Sentence(Advice(_booked, _month)), StringComparison.Ordinal);
    }

    [Fact]
    public void The_sentence_names_the_booked_date_and_the_highest()
    {
        Assert.Equal("On the booked Wed 16 Dec the pass chance is 62 % with the best plan; of the dates compared Wed 23 Dec has the highest, 71 %.", DateChances.Sentence(Advice(_booked, _week)).Replace('\u00A0', ' '));
        Assert.Equal("On the booked Wed 16 Dec the pass chance is 62 % with the best plan; no later date has a higher one.", DateChances.Sentence(Advice(_booked, _week with { PassChance = 0.622 })).Replace('\u00A0', ' '));
        Assert.EndsWith("none of the dates compared is allowed.", DateChances.Sentence(Advice(_booked with { Barred = "too early" })), StringComparison.Ordinal);
    }

    [Fact]
    public void One_date_and_close_dates_can_be_drawn()
    {
        Assert.Single(Draw(_booked).Descendants("circle"), c => (string?)c.Attribute("class") == "hs-history-mark");
        XElement close = Draw([.. Enumerable.Range(0, 30).Select(i => _week with { Date = _booked.Date.PlusDays(i), Booked = i == 15 })]);
        double[] named = [.. close.Descendants("text").Where(t => (double)t.Attribute("y")! is > 210 and < 220).Select(t => (double)t.Attribute("x")!).Order()];
        Assert.All(named.Zip(named.Skip(1)), pair => Assert.True(pair.Second - pair.First >= 44));
        Assert.Contains("booked", close.Descendants("text").Select(t => t.Value));
    }

    private static XElement Draw(params DateOption[] options) => XElement.Parse(DateChances.Html(Advice(options), "dates <1>"));

    private static DateAdvice Advice(params DateOption[] options)
        => new(new SittingTerms { Target = 0.8 }, [.. options], null, options.FirstOrDefault(o => !o.Booked && o.Barred is null), "Because.");
}
