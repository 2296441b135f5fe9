using System.Collections.Immutable;
using System.Globalization;
using System.Net;

using Homestretch.Core.Rooms;
using Homestretch.Store;
using Homestretch.Web.Listing;

using NodaTime;

namespace Homestretch.Web.Tests;

/// <summary>The list of who needs the coach.</summary>
public sealed class CaseListTests(SharedServer server, SharedBrowser browser)
{
    private static readonly LocalDate Today = new(2026, 11, 28);

    [Fact]
    public void Those_in_need_come_first_and_the_sentence_counts_all_of_them()
    {
        CaseList list = CaseList.Of([Case("Calm", 20), Case("Unlinked", 20, hasLink: false), Case("Over", -3), Case("Near", 5, 0.3)], Today, "", "", 1);

        Assert.Equal("3 of 4 need you today", list.Sentence);
        Assert.Equal(["Over", "Near", "Unlinked"], list.Needy.Select(l => l.Case.Candidate));
        Assert.Equal(["Calm"], list.Others.Select(l => l.Case.Candidate));
        Assert.Equal(
            ["The exam was 3 days ago and no official result is recorded.", "The exam is in 5 days and the pass chance is below even.", "No personal link has been made yet."],
            list.Needy.Select(l => CaseList.Words(Assert.Single(l.State.Needs))));
    }

    [Theory]
    [InlineData(1, 0, "Your one candidate does not need you today")]
    [InlineData(1, 1, "Your one candidate needs you today")]
    [InlineData(3, 0, "None of your 3 candidates needs you today")]
    [InlineData(3, 1, "1 of 3 needs you today")]
    [InlineData(14, 3, "3 of 14 need you today")]
    public void The_sentence_is_one_a_person_would_say(int all, int needy, string sentence)
        => Assert.Equal(sentence, CaseList.Of([.. Enumerable.Range(0, all).Select(i => Case($"P{i}", 20, hasLink: i >= needy))], Today, "", "", 1).Sentence);

    [Fact]
    public void Every_reason_has_words()
        => Assert.All(Enum.GetValues<NeedKind>(), kind => Assert.EndsWith(".", CaseList.Words(new Need(kind, 3)), StringComparison.Ordinal));

    [Fact]
    public void A_filter_and_pages_leave_the_sentence_alone()
    {
        ListedCase[] cases = [.. Enumerable.Range(0, 120).Select(i => Case($"Person {i:000}", 20, hasLink: i >= 60, exam: i % 2 == 0 ? "even" : "odd"))];

        CaseList second = CaseList.Of(cases, Today, "", "", 2);
        Assert.Equal("60 of 120 need you today", second.Sentence);
        Assert.Equal((10, 40, 2, 3), (second.Needy.Length, second.Others.Length, second.Page, second.Pages));
        Assert.Equal("Person 050", second.Needy[0].Case.Candidate);

        CaseList odd = CaseList.Of(cases, Today, "odd", "PERSON 01", 99);
        Assert.Equal(["Person 011", "Person 013", "Person 015", "Person 017", "Person 019"], odd.Needy.Select(l => l.Case.Candidate));
        Assert.Equal((1, 1, "60 of 120 need you today"), (odd.Page, odd.Pages, odd.Sentence));
        Assert.Equal(0, CaseList.Of(cases, Today, "neither", "", -5).Found);
    }

    [Fact]
    public async Task The_first_page_says_why_somebody_needs_the_coach_and_stops_when_it_is_dealt_with()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, 390, 844);
        string address = new Uri(await UploadTests.MakeAsync(watched.Page, "mara-venn")).AbsolutePath;
        using HttpClient client = server.Client();

        Assert.Contains("No personal link has been made yet.", await LineAsync(client, address), StringComparison.Ordinal);
        await watched.Page.GotoAsync("/?name=MARA");
        Assert.Matches("needs? you today$", await watched.Page.InnerTextAsync("h1"));
        await watched.Page.LooksRightAsync("with cases");

        await watched.Page.GotoAsync(address + "/link");
        await watched.Page.Locator("form[action$='/link'] button").ClickAsync();
        await watched.Page.WaitForURLAsync("**made=*");
        string line = await LineAsync(client, address);
        Assert.DoesNotContain("No personal link", line, StringComparison.Ordinal);
        Assert.Matches("[0-9]+ %", line);
        Assert.Empty(watched.Complaints);

        Assert.Contains("Nobody is found like this.", await client.GetStringAsync(new Uri("/?name=nobody-of-this-name", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    // The line of a case, whatever the page it is on.
    private static async Task<string> LineAsync(HttpClient client, string address)
    {
        for (int page = 1; page < 9; page++)
        {
            string html = WebUtility.HtmlDecode(await client.GetStringAsync(
                new Uri(string.Create(CultureInfo.InvariantCulture, $"/?page={page}&name=mara"), UriKind.Relative), TestContext.Current.CancellationToken));
            if (html.Split("<li>").FirstOrDefault(l => l.Contains($"href=\"{address}\"", StringComparison.Ordinal)) is { } line)
            {
                return line;
            }
        }

        throw new InvalidOperationException($"{address} is not in the list.");
    }

    private static ListedCase Case(string name, int daysLeft, double chance = 0.7, bool hasLink = true, string exam = "exam")
    {
        ImmutableArray<DayFigures> days = [.. Enumerable.Repeat(new DayFigures(60, 60, 0, chance), 60)];
        return new(name, name, exam, new CandidateFigures(Today.PlusDays(daysLeft), Today, hasLink, HasResult: false, new FiguresByDay(Today.PlusDays(-20), days)));
    }
}
