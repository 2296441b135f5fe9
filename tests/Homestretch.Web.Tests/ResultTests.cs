using System.Globalization;


using Homestretch.Web.Afterwards;

using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>After the exam: the official result is recorded, stands beside the forecast, and a retake is planned from it.</summary>
public sealed class ResultTests(SharedServer server, SharedBrowser browser)
{
    private static readonly string Today = DateTime.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Theory]
    [InlineData("12 of 21", "12", "21", "", "")]
    [InlineData(" 3/4 ", "3", "4", "", "")]
    [InlineData("57,1 %", "", "", "57,1 %", "")]
    [InlineData("57", "", "", "57", "")]
    [InlineData("41-60 %", "", "", "", "41-60 %")]
    [InlineData("41 % to 60 %", "", "", "", "41 % to 60 %")]
    public void What_a_report_says_of_a_topic_is_told_apart(string text, string correct, string items, string percent, string band)
        => Assert.Equal(new ReportedFigure(correct, items, percent, band), ReportedFigure.Read(text));

    [Theory]
    [InlineData("")]
    [InlineData("good")]
    [InlineData("12 of many")]
    [InlineData("=1+1")]
    [InlineData("-5 %")]
    [InlineData("<script>alert(1)</script>")]
    public void Anything_else_is_not_taken_for_a_figure(string text) => Assert.Null(ReportedFigure.Read(text));

    [Fact]
    public async Task A_failed_attempt_is_recorded_compared_and_planned_on_from()
    {
        await using WatchedPage watched = await browser.OpenAsync(server, 390, 844);
        IPage page = watched.Page;
        string address = await UploadTests.MakeAsync(page, "mara-venn", ("Mara Venn", "Resa Tannick"));
        await page.GotoAsync(address);
        await page.GetByRole(AriaRole.Link, new() { NameString = "How did the exam go?" }).ClickAsync();
        await page.FillAsync("#date", Today);
        await page.GetByLabel("Cataloguing", new() { Exact = true }).FillAsync("25 of 23");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the result" }).ClickAsync();

        // Nothing is kept until all of it can be, and what was typed stays.
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Say whether the exam was passed.");
        Assert.Equal("25 of 23", await page.GetByLabel("Cataloguing", new() { Exact = true }).InputValueAsync());
        await page.GetByLabel("Not passed").CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the result" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Alert)).ToContainTextAsync("Cataloguing: ");
        await page.HasNoViolationAsync("refused");

        await page.GetByLabel("Cataloguing", new() { Exact = true }).FillAsync("9 of 23");
        await page.GetByLabel("Score").FillAsync("61 of 110 <b>");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the result" }).ClickAsync();
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("Not passed on ");
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("61 of 110 <b>.");
        await Assertions.Expect(page.Locator("section[aria-labelledby=forecast-title]")).ToContainTextAsync("gave a pass chance of ");
        await page.HasNoViolationAsync("recorded");

        // The retake rule counts from the recorded day, on this page and among the decisions.
        string soonest = await page.InputValueAsync("#exam-day");
        Assert.True(string.CompareOrdinal(soonest, Today) > 0);
        Assert.Contains("After the earlier attempts", await (await page.APIRequest.GetAsync(server.At(address + "/decide").ToString())).TextAsync(), StringComparison.Ordinal);
        await page.GetByRole(AriaRole.Button, new() { Name = "Plan for this day" }).ClickAsync();
        await Assertions.Expect(page.Locator("section[aria-labelledby=decisions-title]")).ToContainTextAsync("Prepare for a retake");
        await Assertions.Expect(page.Locator("section[aria-labelledby=results-title] .rows li")).ToContainTextAsync("Not passed");
        await Assertions.Expect(page.Locator("section[aria-labelledby=evidence-title]")).ToContainTextAsync("official exam");

        await page.GetByRole(AriaRole.Button, new() { NameString = "Take out Not passed" }).ClickAsync();
        await page.GotoAsync(address + "/result");
        await Assertions.Expect(page.Locator(".lead")).Not.ToContainTextAsync("Not passed");
        Assert.Empty(watched.Complaints);
    }
}
