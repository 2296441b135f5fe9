using System.Collections.Immutable;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;

using Homestretch.Files.QuizItems;
using Homestretch.Store;
using Homestretch.Web.Quizzing;

using Microsoft.Playwright;

using NodaTime;

namespace Homestretch.Web.Tests;

/// <summary>Short quizzes of the items that are kept with an exam.</summary>
public sealed partial class ItemQuizTests(SharedServer server, SharedBrowser browser)
{
    private const string Sheet = """
        item,topic,prompt,option a,option b,option c,correct,explanation
        C1,Cataloguing,<script>alert(1)</script>What stays?,The number,The label,,a,KEYWORD one
        C2,Cataloguing,Which two?,Dust,Damp,Glass,"a, b",KEYWORD two
        C3,Cataloguing,When?,At once,Later,,a,
        C4,Cataloguing,Who?,You,Nobody,,a,
        L1,Loans and insurance,Whose?,Theirs,Ours,,a,

        """;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Answers_are_recorded_item_by_item_shown_with_their_explanation_and_undone()
    {
        (HttpClient client, string address, string link) = await MadeAsync("items: one");
        using HttpClient own = client;
        string begin = link + "/quiz/items?topic=Cataloguing&count=3";
        string quiz = await own.GetStringAsync(new Uri(begin, UriKind.Relative), Cancellation);

        // The key is not in the page, and markup of a file is text.
        Assert.DoesNotContain("KEYWORD", quiz, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>alert", quiz, StringComparison.Ordinal);
        string[] items = Items(quiz);
        Assert.Equal(3, items.Distinct().Count());

        (string result, string html) = await AnswerAsync(own, link, begin, quiz, items, "a");
        Assert.StartsWith(link + "/quiz/result?rows=", result, StringComparison.Ordinal);
        int expected = items.Count(i => i != "C2");
        Assert.Contains($"<h1>{expected} of 3 right</h1>", html, StringComparison.Ordinal);
        Assert.Equal(result, (await AnswerAsync(own, link, begin, quiz, items, "a")).Address);

        string evidence = await own.GetStringAsync(new Uri(address + "/kept", UriKind.Relative), Cancellation);
        Assert.Equal(1, Regex.Count(evidence, ">quiz, \\d{4}-\\d\\d-\\d\\d, 3 rows"));
        Assert.Contains($"A short quiz: {expected} of 3 on Cataloguing.", WebUtility.HtmlDecode(await own.GetStringAsync(new Uri(link + "/standing", UriKind.Relative), Cancellation)), StringComparison.Ordinal);

        // The one that was left out comes first now.
        string missing = new[] { "C1", "C2", "C3", "C4" }.Except(items).Single();
        Assert.Equal(missing, Items(await own.GetStringAsync(new Uri(begin, UriKind.Relative), Cancellation))[0]);

        (_, html) = await PersonalTests.PostAsync(own, link, link + "/undo", ("kind", "quiz"), ("ids", result[(result.IndexOf('=', StringComparison.Ordinal) + 1)..].Replace("%2C", ",", StringComparison.Ordinal)));
        Assert.Contains("Taken back.", html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await own.GetAsync(new Uri(result, UriKind.Relative), Cancellation)).StatusCode);
    }

    [Fact]
    public async Task What_a_form_says_is_not_taken_for_true()
    {
        (HttpClient client, string address, string link) = await MadeAsync("items: forged");
        using HttpClient own = client;
        string begin = link + "/quiz/items?topic=Cataloguing&count=3";
        string quiz = await own.GetStringAsync(new Uri(begin, UriKind.Relative), Cancellation);
        string number = QuizNumber().Match(quiz).Groups[1].Value;
        string before = await own.GetStringAsync(new Uri(address + "/kept", UriKind.Relative), Cancellation);
        int rows = Regex.Count(before, "Take out");

        foreach ((string q, string items, string answer) in new[]
        {
            (number, "C1\nC1", "a"), (number, "C1\nL1", "a"), (number, "NONE", "a"), (number, "", "a"), (number, "C1", "z"), ("1", "C1", "a"), ("99999999999999", "C1", "a"), ("x", "C1", "a"),
            (number, string.Join('\n', Enumerable.Repeat("C1", 11)), "a"),
        })
        {
            (string to, _) = await PersonalTests.PostAsync(own, begin, link + "/quiz/items", ("quiz", q), ("items", items), ("answer-0", answer));
            Assert.Equal(link + "/quiz?stale=yes", to);
        }

        // Two answers to an item that takes one.
        Assert.Equal(link + "/quiz?stale=yes", (await PersonalTests.PostAsync(own, begin, link + "/quiz/items", ("quiz", number), ("items", "C1"), ("answer-0", "a"), ("answer-0", "b"))).Address);
        Assert.Equal(rows, Regex.Count(await own.GetStringAsync(new Uri(address + "/kept", UriKind.Relative), Cancellation), "Take out"));
        Assert.Equal(HttpStatusCode.NotFound, (await own.GetAsync(new Uri(link + "/quiz/result?rows=1-9", UriKind.Relative), Cancellation)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await own.GetAsync(new Uri(link + "/quiz/items?topic=Astronomy", UriKind.Relative), Cancellation)).StatusCode);
    }

    [Fact]
    public void Items_never_answered_come_first_and_those_answered_longest_ago_next()
    {
        ImmutableArray<QuizItem> items = [.. "abcdef".Select(c => new QuizItem(c.ToString(), null, "T", null, QuizText.Of("?"), [new("a", QuizText.Of("x"), true), new("b", QuizText.Of("y"), false)], false, null, "f", 1))];
        EvidenceRow Row(string item) => new() { At = default, Origin = Origin.Candidate, Candidate = "c", Attempt = "q", Kind = "quiz", Date = "2026-11-28", Topic = "T", Item = item };
        EvidenceRow[] evidence = [WithId(Row("c"), 5), WithId(Row("a"), 7), WithId(Row("b"), 6), WithId(Row("c"), 8)];

        ImmutableArray<QuizItem> chosen = ItemQuiz.Choose(items, evidence, "T", 10, 1);

        Assert.Equal("bac", string.Concat(chosen[3..].Select(i => i.Id)));
        Assert.Equal("def", string.Concat(chosen[..3].Select(i => i.Id).Order()));
        Assert.Equal(chosen, ItemQuiz.Choose(items, evidence, "T", 10, 1));
        Assert.Equal(ItemQuiz.Fewest, ItemQuiz.Choose(items, evidence, "T", -5, 1).Length);
        Assert.True(Enumerable.Range(0, 50).Select(q => string.Concat(ItemQuiz.Choose(items, evidence, "T", 3, q).Select(i => i.Id))).Distinct().Count() > 3);

        static EvidenceRow WithId(EvidenceRow row, long id)
        {
            typeof(KeptRow).GetProperty(nameof(KeptRow.Id))!.SetValue(row, id);
            return row;
        }
    }

    [Fact]
    public async Task On_a_phone_a_word_is_noted_and_practised_a_quiz_answered_and_the_plan_reacts()
    {
        (HttpClient client, string address, string link) = await MadeAsync("items: story");
        using HttpClient coach = client;
        await WordTests.ImportAsync(coach, address + "/words", WordTests.MissedWord("dust that insects leave"));
        await using WatchedPage watched = await browser.OpenAsync(server, 390, 844);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        await page.GetByRole(AriaRole.Link, new() { Name = "Words", Exact = true }).ClickAsync();
        await page.GetByLabel("The word").FillAsync("patina");
        await page.GetByText("Its meaning and topic, now or later").ClickAsync();
        await page.GetByLabel("What it means, in your own words").FillAsync("what time leaves on bronze");
        await page.GetByRole(AriaRole.Button, new() { Name = "Note it" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Noted: patina.");

        await page.GetByRole(AriaRole.Link, new() { Name = "Practise 1 word" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("frass");
        await Assertions.Expect(page.GetByText("dust that insects leave")).ToBeHiddenAsync();
        await page.GetByText("Show what it means").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "I knew it" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("frass: known.");

        await page.GetByRole(AriaRole.Link, new() { Name = "Short quiz" }).ClickAsync();
        await page.GetByLabel("Topic", new() { Exact = true }).SelectOptionAsync("Cataloguing");
        await page.GetByLabel("How many items").FillAsync("4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        await Assertions.Expect(page.Locator("fieldset")).ToHaveCountAsync(4);
        foreach (ILocator last in await page.Locator("fieldset .quiz-option:last-child label").AllAsync())
        {
            await last.ClickAsync();
        }

        await page.GetByRole(AriaRole.Button, new() { Name = "Record these answers" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1 })).ToHaveTextAsync("0 of 4 right");
        await page.GetByRole(AriaRole.Link, new() { Name = "Where I stand" }).ClickAsync();
        await Assertions.Expect(page.Locator("section[aria-labelledby=changed-title]")).ToContainTextAsync("A short quiz: 0 of 4 on Cataloguing.");
        Assert.Equal(2, await page.Locator(".hs-history tbody tr").CountAsync());
        Assert.Empty(watched.Complaints);
    }

    private static string[] Items(string quiz) => WebUtility.HtmlDecode(ItemNames().Match(quiz).Groups[1].Value).Split('\n');

    private static Task<(string Address, string Html)> AnswerAsync(HttpClient client, string link, string page, string quiz, string[] items, string answer)
        => PersonalTests.PostAsync(client, page, link + "/quiz/items",
            [("quiz", QuizNumber().Match(quiz).Groups[1].Value), ("items", string.Join('\n', items)), .. items.Select((_, i) => ($"answer-{i}", answer))]);

    private async Task<(HttpClient Client, string Address, string Link)> MadeAsync(string exam)
    {
        HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await PersonalTests.MakeByRequestsAsync(client, exam);
        await MaterialTests.AddAsync(server.Data, address, ExamFileRole.QuizItems, "items.csv", Encoding.UTF8.GetBytes(Sheet));
        return (client, address, link);
    }

    [GeneratedRegex("name=\"items\" value=\"([^\"]*)\"")]
    private static partial Regex ItemNames();

    [GeneratedRegex("name=\"quiz\" value=\"([0-9]+)\"")]
    private static partial Regex QuizNumber();
}
