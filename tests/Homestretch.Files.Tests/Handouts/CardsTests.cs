using System.Xml.Linq;

using Homestretch.Core.Words;
using Homestretch.Files.Handouts;

using NodaTime;

namespace Homestretch.Files.Tests.Handouts;

/// <summary>Cards to print on both sides: every back lies behind its front.</summary>
public class CardsTests
{
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    [InlineData(8, 1)]
    [InlineData(11, 2)]
    public void Turned_over_the_long_edge_every_back_lies_behind_its_front(int words, int sheets)
    {
        XElement[] lists = [.. Page(words).Descendants("ul")];

        Assert.Equal(2 * sheets, lists.Length);
        int seen = 0;
        for (int sheet = 0; sheet < sheets; sheet++)
        {
            XElement[] front = [.. lists[2 * sheet].Elements("li")];
            XElement[] back = [.. lists[(2 * sheet) + 1].Elements("li")];
            foreach ((int place, XElement card) in front.Index())
            {
                // Same row, other column.
                XElement behind = back[(place / 2 * 2) + 1 - (place % 2)];
                Assert.Equal("term " + seen, card.Elements("p").First().Value);
                Assert.Equal("meaning " + seen, behind.Elements("p").ElementAt(1).Value);
                seen++;
            }
        }

        Assert.Equal(words, seen);
    }

    [Fact]
    public void The_page_needs_nothing_else_and_is_black_on_white()
    {
        string html = Cards.Html("Exam <1>", [Sample(0) with { Term = "<script>alert(1)</script>", CoachDefinition = new string('c', 400), OwnDefinition = new string('o', 400) }]);

        Assert.Contains("default-src 'none'", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", html, StringComparison.Ordinal);
        Assert.DoesNotContain("http:", html, StringComparison.Ordinal);
        Assert.Contains("class=\"card longest\"", html, StringComparison.Ordinal);
        Assert.DoesNotMatch("#(?!000000|ffffff)[0-9a-f]{3,6}|var\\(--(?!font)", Look.Cards);
    }

    private static XElement Page(int words)
    {
        string html = Cards.Html("Exam", [.. Enumerable.Range(0, words).Select(Sample)]);
        return XElement.Parse(html[html.IndexOf("<main>", StringComparison.Ordinal)..(html.IndexOf("</main>", StringComparison.Ordinal) + "</main>".Length)]);
    }

    private static Word Sample(int i) => new($"term {i}", new LocalDate(2026, 11, 25)) { OwnDefinition = $"meaning {i}" };
}
