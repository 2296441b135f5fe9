using System.Globalization;
using System.Text.RegularExpressions;


using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>The whole job for one candidate, as somebody does it who has never seen the program: blueprint, diagnosis, standing, worth, resources, time, follow-through, decisions, and what comes after the exam.
/// What concerns a whole room (its agenda, who studies together) is not part of it.</summary>
public sealed class PlayThroughTests(SharedServer server, SharedBrowser browser)
{
    // As a table in a document comes when it is copied.
    private const string Published = """
        Content outline                      Weight
        I.   Cataloguing                     23 %
             A. Object numbers and marking
             B. Describing and measuring
             C. Location records
        II.  Preventive conservation         21 %
             A. Light and humidity
             B. Pests
             C. Storage materials
        III. Handling and packing            18 %
             A. Moving objects
             B. Crates and couriers
        IV.  Emergency plans                 13 %
             A. Risk assessment
             B. Salvage after water and fire
        V.   Loans and insurance             25 %
             A. Loan agreements
             B. Condition reports
             C. Insurance and indemnity
        Total                                100 %
        """;

    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    [Theory]
    [InlineData(1280, 900)]
    [InlineData(390, 844)]
    public async Task From_the_blueprint_to_the_result(int width, int height)
    {
        await using WatchedPage watched = await browser.OpenAsync(server, width, height);
        IPage page = watched.Page;
        string examName = $"Registrar's certificate, {width}";

        // 1. Blueprint: pasted, completed in the form, kept.
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Exams", Exact = true }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { NameRegex = new Regex("^(New exam|Set up the first exam)$") }).First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "paste it", Exact = true }).ClickAsync();
        await page.GetByLabel("The table").FillAsync(Published);
        await page.GetByRole(AriaRole.Button, new() { Name = "Read it" }).ClickAsync();
        await Assertions.Expect(page.GetByText("5 topics, 13 subtopics")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Put it into the form" }).ClickAsync();
        await page.GetByLabel("Name of the exam").FillAsync(examName);
        await page.Locator("#s0-name").FillAsync("The whole exam");
        await page.Locator("#s0-scored").FillAsync("100");
        await page.Locator("#s0-minutes").FillAsync("150");
        await page.Locator("#s0-cut-mark").FillAsync("65");
        await page.GetByLabel("Days to wait before a retake").FillAsync("45");
        await Assertions.Expect(page.GetByText("Nothing to mend")).ToBeVisibleAsync();
        await page.LooksRightAsync("form of an exam");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this exam" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = examName, Exact = true })).ToBeVisibleAsync();

        // 5. Resources and items to practise on.
        await page.GetByLabel("Resources").SetInputFilesAsync(Text("resources.csv", "title,kind,topics,minutes,edition,where\nThe register and the label,teaches,Cataloguing,150,2026,pages 1 to 64\nFour hundred items,practice items,all,240,2026,room folder\n"));
        await page.GetByLabel("Items to practise on").SetInputFilesAsync(Text("items.csv", await ItemsAsync()));
        await page.GetByRole(AriaRole.Button, new() { Name = "Add", Exact = true }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The files are kept.");
        await Assertions.Expect(page.Locator(".flag", new() { HasText = "No material that teaches" })).ToHaveCountAsync(4);
        await page.LooksRightAsync("an exam");

        // 2. Diagnosis, and 6. time: one person's answers and free hours.
        await page.GetByRole(AriaRole.Link, new() { NameRegex = new Regex("^(A new case|New case)$") }).First.ClickAsync();
        ILocator exams = page.GetByLabel("One of your exams");
        await exams.SelectOptionAsync((await exams.Locator("option", new() { HasText = examName }).GetAttributeAsync("value"))!);
        await page.SetInputFilesAsync("#evidence", Text("diagnostic.csv", await DiagnosticAsync("Nela Brandt")));
        await page.SetInputFilesAsync("#free", Text("free.yaml", $"zone: {Morning.Zone}\ndaily-cap: 2 h\nweekly:\n  - day: Monday to Sunday\n    from: 08:00\n    to: 20:00\n"));
        await page.FillAsync("#exam-day", Morning.Day(18));
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the case" }).ClickAsync();
        await page.WaitForURLAsync("**/case/*");
        string address = new Uri(page.Url).AbsolutePath;

        // 3. Standing, 4. worth, and the plan, on one page; the assumptions answer at once.
        await Assertions.Expect(page.Locator(".answer")).ToContainTextAsync("of the 100 scored items correctly today");
        foreach (string part in new[] { "Your score, topic by topic", "Your plan", "Where you stand", "What the next 30 minutes are worth", "How the exam may turn out" })
        {
            await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = part, Exact = true })).ToBeVisibleAsync();
        }

        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("The register and the label");
        string before = await page.Locator(".outcome.chosen .figure").InnerTextAsync();
        await page.GetByLabel("Study hours a week").FillAsync("1");
        await Assertions.Expect(page.Locator(".outcome.chosen .figure")).Not.ToHaveTextAsync(before);
        await page.GotoAsync(address);
        await page.LooksRightAsync("a case");
        await page.GetByRole(AriaRole.Link, new() { NameString = "Does the diagnostic deserve trust?" }).ClickAsync();

        // Its own heading: the case's page has one too, and is still there when the address has changed already.
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Level = 1, Name = "Does the diagnostic deserve trust?" })).ToBeVisibleAsync();
        await page.LooksRightAsync("the diagnostic");

        // 8. Decisions: the figures, then what was decided.
        await page.GotoAsync(address);
        await page.GetByRole(AriaRole.Link, new() { NameString = "Sit, postpone, more hours, one more test?" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Which exam date" })).ToBeVisibleAsync();
        await page.LooksRightAsync("decisions");
        await page.GotoAsync(address + "/kept");
        await page.GetByLabel("What was decided").FillAsync("Sit as planned.");
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this decision" }).ClickAsync();
        await Assertions.Expect(page.Locator("section[aria-labelledby=decisions-title] .rows")).ToContainTextAsync("Sit as planned.");

        // 7. Follow-through, on the candidate's own pages.
        await page.GotoAsync(address + "/link");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make the link" }).ClickAsync();
        string link = (await page.Locator(".link-text a").GetAttributeAsync("href"))!;
        await page.GotoAsync(link);
        ILocator block = page.Locator("section[aria-labelledby=today-title] .block-card:not(.said)").First;
        await Assertions.Expect(block).ToBeVisibleAsync();
        await page.LooksRightAsync("today");
        await block.GetByRole(AriaRole.Button, new() { NameString = "Done: " }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Recorded: ");

        await page.GetByRole(AriaRole.Link, new() { Name = "Words", Exact = true }).ClickAsync();
        await page.GetByLabel("The word").FillAsync("frass");
        await page.GetByText("Its meaning and topic, now or later").ClickAsync();
        await page.GetByLabel("What it means, in your own words").FillAsync("dust that insects leave");
        await page.GetByRole(AriaRole.Button, new() { Name = "Note it" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Noted: frass.");
        await page.LooksRightAsync("words");

        await page.GetByRole(AriaRole.Link, new() { Name = "Short quiz", Exact = true }).ClickAsync();
        await page.GetByLabel("Topic").SelectOptionAsync("Cataloguing");
        await page.GetByLabel("How many items").FillAsync("3");
        await page.GetByRole(AriaRole.Button, new() { Name = "Begin" }).ClickAsync();
        for (int item = 0; item < 2; item++)
        {
            await page.Locator($"[name='answer-{item}']").First.CheckAsync();
        }

        await page.LooksRightAsync("a quiz");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record these answers" }).ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync(new Regex("[0-2] of 2"));
        await page.GetByRole(AriaRole.Link, new() { Name = "Where I stand", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".hs-history tbody tr")).ToHaveCountAsync(4);
        await page.LooksRightAsync("where I stand");

        // 6. again: paper and calendar.
        IAPIResponse handout = await page.APIRequest.GetAsync(server.At(address + "/handout").ToString());
        Assert.Contains("Nela Brandt", await handout.TextAsync(), StringComparison.Ordinal);
        Assert.Contains("BEGIN:VEVENT", await (await page.APIRequest.GetAsync(server.At(address + "/plan.ics").ToString())).TextAsync(), StringComparison.Ordinal);

        // The coach finds the person again, and 10. what came of it.
        await page.GotoAsync("/");
        await page.GetByRole(AriaRole.Link, new() { Name = "Nela Brandt", Exact = true }).First.ClickAsync();
        await page.GotoAsync(address + "/result");
        await page.GetByLabel("Exam day").FillAsync(Morning.Day());
        await page.GetByLabel("Passed", new() { Exact = true }).CheckAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the result" }).ClickAsync();
        await Assertions.Expect(page.Locator(".lead")).ToContainTextAsync("Passed on ");
        await Assertions.Expect(page.Locator("section[aria-labelledby=forecast-title]")).ToContainTextAsync("gave a pass chance of ");
        await page.LooksRightAsync("the result");
        Assert.Empty(watched.Complaints);
    }

    // Of the demo's files, what is about the five topics of this exam.
    private static async Task<string> DiagnosticAsync(string name)
        => (await RowsOfTheFiveTopicsAsync("mara-venn.csv")).Replace("Mara Venn", name, StringComparison.Ordinal);

    private static Task<string> ItemsAsync() => RowsOfTheFiveTopicsAsync("quiz-items.csv");

    private static async Task<string> RowsOfTheFiveTopicsAsync(string file)
    {
        string[] lines = await File.ReadAllLinesAsync(Path.Combine(Examples, file), TestContext.Current.CancellationToken);
        return string.Join('\n', lines.Where((line, i) => i == 0 || Regex.IsMatch(line, "Cataloguing|Preventive conservation|Handling and packing|Emergency plans|Loans and insurance"))) + "\n";
    }

    private static FilePayload Text(string name, string text) => new() { Name = name, MimeType = "text/plain", Buffer = System.Text.Encoding.UTF8.GetBytes(text) };
}
