using System.Globalization;
using System.IO.Compression;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;


using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>Setting up an exam in the browser: the form, pasted tables, files, versions and materials. Without script unless a test says otherwise.</summary>
public sealed class ExamTests(SharedServer server, SharedBrowser browser)
{
    private const string Table = "Guild handbook\nTopic\tWeight\nI. Lamps\t60 %\n\tA. Oil lamps\n\tB. Electric lamps\nII. Lenses and\nprisms\t40 %\nThis sentence is about something else, and names no topic.\nTotal\t100 %";

    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    private static string InThreeWeeks => DateTime.UtcNow.AddDays(21).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private ExamClient Client() => new(server.Client());

    [Fact]
    public async Task An_exam_is_typed_into_the_form_row_by_row_and_kept()
    {
        using ExamClient client = Client();
        Dictionary<string, string> form = ExamClient.Fields(await client.PageAsync("/exams/new"), "/exams/edit");
        Assert.Equal("every section", form["rule"]);
        form["exam-name"] = "Keepers <b>of</b> lighthouses";
        form["s0-name"] = "Lamps and lenses";
        form["s0-scored"] = "60";
        form["s0-cut-mark"] = "65";
        form["s0-t0-name"] = "Lamps";
        form["s0-t0-weight"] = "70";
        form["s0-t1-name"] = "Lenses";
        form["s0-t1-weight"] = "40 %";

        // A subtopic more; what was typed stays, and the mistakes stand at their fields.
        form["do"] = "add-subtopic:0.1";
        string address = await client.SendAsync("/exams/edit", form);
        Assert.EndsWith("#s0-t1-p0-name", address, StringComparison.Ordinal);
        string page = await client.PageAsync(address);
        form = ExamClient.Fields(page, "/exams/edit");
        Assert.Equal(("Keepers <b>of</b> lighthouses", "70", ""), (form["exam-name"], form["s0-t0-weight"], form["s0-t1-p0-name"]));
        Assert.Matches("<p class=\"field-problem\" id=\"s0-t0-weight-problem\"[^>]*>topic &#x27;Lamps&#x27;, weight: &#x27;70&#x27; has no unit", page);
        Assert.DoesNotContain("<b>of</b>", page, StringComparison.Ordinal);

        // Keeping is refused as long as anything is wrong.
        form["do"] = "save";
        page = await client.PageAsync(await client.SendAsync("/exams/edit", form));
        Assert.Contains("Nothing has been kept yet", page, StringComparison.Ordinal);

        // Rows move and go, and what went can be taken back.
        form = ExamClient.Fields(page, "/exams/edit");
        form["s0-t0-weight"] = "60 %";
        form["s0-t1-p0-name"] = "Grinding";
        form["do"] = "up-topic:0.1";
        form = ExamClient.Fields(await client.PageAsync(await client.SendAsync("/exams/edit", form)), "/exams/edit");
        Assert.Equal(("Lenses", "Grinding", "Lamps"), (form["s0-t0-name"], form["s0-t0-p0-name"], form["s0-t1-name"]));
        form["do"] = "remove-topic:0.0";
        page = await client.PageAsync(await client.SendAsync("/exams/edit", form));
        Assert.Contains("The topic ‘Lenses’ was removed.", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        form = ExamClient.Fields(page, "/exams/edit");
        Assert.Equal("Lamps", form["s0-t0-name"]);
        form["do"] = "undo";
        page = await client.PageAsync(await client.SendAsync("/exams/edit", form));
        Assert.Contains("Nothing to mend.", page, StringComparison.Ordinal);
        Assert.Contains("Smallest topic: Lenses, 24 items", page, StringComparison.Ordinal);

        form = ExamClient.Fields(page, "/exams/edit");
        form["do"] = "save";
        address = await client.SendAsync("/exams/edit", form);
        Assert.Matches("^/exams/keepers-bofb-lighthouses-[0-9a-f]{8}\\?kept=new$", address);
        page = await client.PageAsync(address);
        Assert.Contains("Keepers &lt;b&gt;of&lt;/b&gt; lighthouses", page, StringComparison.Ordinal);
        Assert.Contains("Grinding", page, StringComparison.Ordinal);
        Assert.Contains(address.Split('?')[0], await client.PageAsync("/exams"), StringComparison.Ordinal);
        string file = (await client.GetAsync(address.Split('?')[0] + "/exam.yaml")).Text;
        Assert.StartsWith("exam: \"Keepers <b>of</b> lighthouses\"\n", file, StringComparison.Ordinal);

        // A new version for which nobody prepares counts at once, and can be taken back and put back.
        form = ExamClient.Fields(await client.PageAsync(address.Split('?')[0] + "/edit"), "/exams/edit");
        form["s0-scored"] = "50";
        form["do"] = "save";
        page = await client.PageAsync(await client.SendAsync("/exams/edit", form));
        Assert.Contains("50 scored", page, StringComparison.Ordinal);
        page = await client.PageAsync(await client.SendAsync(address.Split('?')[0] + "/take-back", ExamClient.Fields(page, address.Split('?')[0] + "/take-back")));
        Assert.Contains("60 scored", page, StringComparison.Ordinal);
        page = await client.PageAsync(await client.SendAsync(address.Split('?')[0] + "/put-back", ExamClient.Fields(page, address.Split('?')[0] + "/put-back")));
        Assert.Contains("50 scored", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_answers_with_the_part_of_the_page_only()
    {
        using ExamClient client = Client();
        Dictionary<string, string> form = ExamClient.Fields(await client.PageAsync("/exams/new"), "/exams/edit");
        (HttpStatusCode status, string text, _) = await client.PostAsync("/exams/check", form);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.StartsWith("<p class=\"check-state\"", text.TrimStart(), StringComparison.Ordinal);
        Assert.Contains("data-field=\"exam-name\"", text, StringComparison.Ordinal);

        (status, text, _) = await client.PostAsync("/exams/check-text", new Dictionary<string, string> { ["yaml"] = "exam: <script>\nsections: []\n" });
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("data-line=\"2\"", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_pasted_table_is_shown_line_by_line_and_put_into_the_form()
    {
        using ExamClient client = Client();
        Dictionary<string, string> form = ExamClient.Fields(await client.PageAsync("/exams/new/paste"), "/exams/paste");
        form["pasted"] = Table;
        form["do"] = "read";
        string page = await client.PageAsync(await client.SendAsync("/exams/paste", form));
        Assert.Contains("2 topics, 2 subtopics; 2 lines not used, each with its reason.", page, StringComparison.Ordinal);
        Assert.Contains("It reads like a sentence, not like a name.", page, StringComparison.Ordinal);
        Assert.Contains("The topics sum to 100 %.", page, StringComparison.Ordinal);

        form = ExamClient.Fields(page, "/exams/paste");
        Assert.Equal(Table, form["pasted"]);
        Assert.Equal("replace-0", form["into"]);
        form["do"] = "put";
        form = ExamClient.Fields(await client.PageAsync(await client.SendAsync("/exams/paste", form)), "/exams/edit");
        Assert.Equal(("Lamps", "60 %", "Oil lamps", "Lenses and prisms", "40 %"), (form["s0-t0-name"], form["s0-t0-weight"], form["s0-t0-p0-name"], form["s0-t1-name"], form["s0-t1-weight"]));
    }

    [Theory]
    [InlineData(1_048_576, "1,048,576 characters")]
    [InlineData(0, "There is nothing to read yet")]
    public async Task A_paste_that_is_no_table_is_refused_plainly(int length, string problem)
    {
        using ExamClient client = Client();
        Dictionary<string, string> form = ExamClient.Fields(await client.PageAsync("/exams/new/paste"), "/exams/paste");
        form["pasted"] = new string('x', length) + (length == 0 ? "\u0001 " : "");
        form["do"] = "read";
        string page = await client.PageAsync(await client.SendAsync("/exams/paste", form));
        Assert.Contains(length == 0 ? "No topic was found" : problem, page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_broken_exam_file_is_listed_by_line_and_mended_as_text()
    {
        using ExamClient client = Client();
        string good = await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), TestContext.Current.CancellationToken);
        good = good.Replace("exam: Certificate", "exam: Mended certificate", StringComparison.Ordinal);
        string broken = good.Replace("percent: 65", "percent: 650", StringComparison.Ordinal) + "# <script>alert(1)</script>\n";
        string address = await client.SendAsync("/exams/upload", new Dictionary<string, string>(), ("file", "<i>broken</i>.yaml", Encoding.UTF8.GetBytes(broken)));
        string page = await client.PageAsync(address);
        Assert.Matches("Line \\d+</a>: section &#x27;Care of collections&#x27;, pass, percent: &#x27;650&#x27; is out of range", page);
        Assert.DoesNotContain("<script>alert", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<i>broken", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Mended certificate</a>", await client.PageAsync("/exams"), StringComparison.Ordinal);

        Dictionary<string, string> form = ExamClient.Fields(page, "/exams/text");
        Assert.Equal(broken, form["yaml"]);
        form["yaml"] = good + "# kept as it is\n";
        form["do"] = "save";
        address = (await client.SendAsync("/exams/text", form)).Split('?')[0];
        Assert.EndsWith("# kept as it is\n", (await client.GetAsync(address + "/exam.yaml")).Text, StringComparison.Ordinal);

        // The form says that it cannot hold comments, and writes what it holds.
        page = await client.PageAsync(address + "/edit");
        Assert.Contains("holds comments", page, StringComparison.Ordinal);
        form = ExamClient.Fields(page, "/exams/edit");
        form["notes"] = "Calculators are lent out.\nBreaks: none.";
        form["do"] = "save";
        page = await client.PageAsync(await client.SendAsync("/exams/edit", form));
        Assert.Contains("Calculators are lent out.\nBreaks: none.", WebUtility.HtmlDecode(page), StringComparison.Ordinal);
        Assert.Equal(2, Regex.Count(page, "exam.yaml\\?version="));

        // The same file once more is not another exam.
        address = await client.SendAsync("/exams/upload", new Dictionary<string, string>(), ("file", "again.yaml", Encoding.UTF8.GetBytes((await client.GetAsync(address + "/exam.yaml")).Text)));
        Assert.EndsWith("?kept=same", address, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Hostile_and_oversized_files_are_refused_plainly()
    {
        using ExamClient client = Client();
        (HttpStatusCode status, string text, _) = await client.PostAsync("/exams/upload", new Dictionary<string, string>(), ("file", "large.yaml", new byte[50 * 1024 * 1024]));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, status);
        Assert.Contains("at most 25 MB", text, StringComparison.Ordinal);

        foreach ((byte[] content, string problem) in new[]
        {
            (Encoding.UTF8.GetBytes("exam: x\n" + new string('#', 600_000)), "longer than 500 kB"),
            ([0xff, 0xfe, 0x00, 0xd8], "not a text file in UTF-8"),
            (Encoding.UTF8.GetBytes("a: &a [x, x]\nb: &b [*a, *a, *a]\n"), "The anchor &#x27;&amp;a&#x27; is not accepted"),
        })
        {
            Assert.Contains(problem, await client.PageAsync(await client.SendAsync("/exams/upload", new Dictionary<string, string>(), ("file", "odd.yaml", content))), StringComparison.Ordinal);
        }

        string address = await MakeExamAsync(client, "Hostile materials");
        foreach ((string field, string name, byte[] content, string problem) in new[]
        {
            ("resources", "bomb.xlsx", Bomb(), "bomb.xlsx:1: "),
            ("items", "entity.xml", Encoding.UTF8.GetBytes("<?xml version=\"1.0\"?><!DOCTYPE x [<!ENTITY f SYSTEM \"file:///etc/passwd\">]><assessmentItem>&f;</assessmentItem>"), "document type definition"),
            ("items", "bomb.zip", Bomb(), "bomb.zip:1: "),
            ("resources", "wrong.csv", Encoding.UTF8.GetBytes("title,kind,topics\n<script>alert(1)</script>,teaches,Nowhere\n"), "the exam has no topic &#x27;Nowhere&#x27;"),
        })
        {
            string page = await client.PageAsync(await client.SendAsync(address + "/materials", new Dictionary<string, string>(), (field, name, content)));
            Assert.Contains("Nothing was kept.", page, StringComparison.Ordinal);
            Assert.Contains(problem, page, StringComparison.Ordinal);
            Assert.DoesNotContain("<script>alert", page, StringComparison.Ordinal);
            Assert.DoesNotContain("root:", page, StringComparison.Ordinal);
            Assert.DoesNotContain("<h3>Files</h3>", page, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Materials_are_listed_by_topic_and_can_be_taken_out()
    {
        using ExamClient client = Client();
        string address = await MakeExamAsync(client, "With materials");
        byte[] resources = Encoding.UTF8.GetBytes("title,kind,topics,minutes,edition,where\nOld primer,teaches,Cataloguing,90,2019,shelf 3\nCards,practice items,Title and ethics,30,,\nTerms on a sheet,reference,all,,,\n");
        string page = await client.PageAsync(await client.SendAsync(
            address + "/materials", new Dictionary<string, string>(), ("resources", "resources.csv", resources), ("items", "quiz-items.csv", await File.ReadAllBytesAsync(Path.Combine(Examples, "quiz-items.csv"), TestContext.Current.CancellationToken))));
        Assert.Contains("The files are kept.", page, StringComparison.Ordinal);
        Assert.Matches("Old primer.*older than the blueprint", page);
        Assert.Equal(7, Regex.Count(page, "No material that teaches"));

        // What serves every topic is said once, above the table.
        Assert.Matches("For every topic.*Terms on a sheet.*Topic by topic.*<table", page.ReplaceLineEndings(" "));
        Assert.Single(Regex.Matches(page, "Terms on a sheet"));
        Assert.Matches("<h3>Files</h3>.*resources.csv.*quiz-items.csv", page.ReplaceLineEndings(" "));

        page = await client.PageAsync(await client.SendAsync(address + "/materials/take-out", ExamClient.Fields(page, address + "/materials/take-out")));
        Assert.DoesNotContain("Old primer", page, StringComparison.Ordinal);
        page = await client.PageAsync(await client.SendAsync(address + "/materials/put-back", ExamClient.Fields(page, address + "/materials/put-back")));
        Assert.Contains("Old primer", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Items_that_name_no_topic_get_the_one_that_is_chosen()
    {
        using ExamClient client = Client();
        string address = await MakeExamAsync(client, "Topic of items");
        byte[] item = Encoding.UTF8.GetBytes("""
            <assessmentItem xmlns="http://www.imsglobal.org/xsd/imsqti_v2p1" identifier="mark-1" title="A mark">
              <responseDeclaration identifier="R" cardinality="single" baseType="identifier"><correctResponse><value>a</value></correctResponse></responseDeclaration>
              <itemBody><choiceInteraction responseIdentifier="R" maxChoices="1"><prompt>Where does the number go?</prompt>
                <simpleChoice identifier="a">Where it does no harm</simpleChoice><simpleChoice identifier="b">On the face</simpleChoice></choiceInteraction></itemBody>
            </assessmentItem>
            """);
        string page = await client.PageAsync(await client.SendAsync(address + "/materials", new Dictionary<string, string>(), ("items", "mark.xml", item)));
        Assert.Contains("No topic of the exam is known for it", page, StringComparison.Ordinal);
        Assert.Contains("Nothing was kept.", page, StringComparison.Ordinal);

        page = await client.PageAsync(await client.SendAsync(address + "/materials", new Dictionary<string, string> { ["topic"] = "Cataloguing" }, ("items", "mark.xml", item)));
        Assert.Contains("The files are kept.", page, StringComparison.Ordinal);
        Assert.Matches("<th scope=\"row\">Cataloguing</th>.*?<td class=\"num\">1</td>", page.ReplaceLineEndings(" "));
    }

    [Fact]
    public async Task A_new_version_is_shown_with_what_it_means_before_it_counts()
    {
        using ExamClient client = Client();
        string name = "In use " + Guid.NewGuid().ToString("N")[..6];
        string yaml = (await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), TestContext.Current.CancellationToken))
            .Replace("exam: Certificate for Registrars of Small Museums", "exam: " + name, StringComparison.Ordinal);
        string person = await client.SendAsync(
            "/new",
            new Dictionary<string, string> { ["exam-day"] = InThreeWeeks, ["candidate"] = "" },
            ("exam", "exam.yaml", Encoding.UTF8.GetBytes(yaml)),
            ("evidence", "mara-venn.csv", await File.ReadAllBytesAsync(Path.Combine(Examples, "mara-venn.csv"), TestContext.Current.CancellationToken)),
            ("free", "free.yaml", await File.ReadAllBytesAsync(Path.Combine(Examples, "mara-venn.free.yaml"), TestContext.Current.CancellationToken)));
        string exam = Regex.Match(await client.PageAsync("/exams"), $"<a href=\"(/exams/[^\"]+)\">{name}</a>").Groups[1].Value;
        Assert.Contains($"<a href=\"{person}\">Mara Venn</a>", await client.PageAsync(exam), StringComparison.Ordinal);

        // A topic that her results are about cannot go.
        Dictionary<string, string> form = ExamClient.Fields(await client.PageAsync(exam + "/edit"), "/exams/edit");
        form["s0-t0-name"] = "Lists";
        form["do"] = "save";
        string address = await client.SendAsync("/exams/edit", form);
        string page = await client.PageAsync(address);
        Assert.Contains("This version cannot be kept", page, StringComparison.Ordinal);
        Assert.Contains($"<strong><a href=\"{person}\">Mara Venn</a></strong>: Cataloguing", page, StringComparison.Ordinal);
        Assert.Contains("It has no place for what these people", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Keep this version", page, StringComparison.Ordinal);
        address = await client.SendAsync("/exams/keep", ExamClient.Fields(page, "/exams/keep"));
        Assert.Contains("This version cannot be kept", await client.PageAsync(address), StringComparison.Ordinal);

        // Of a section only what changes is named.
        form["s0-t0-name"] = "Cataloguing";
        form["s0-cut-mark"] = "70";
        Assert.Contains(
            "<li>Care of collections: cut score 70 % of the items, that is 53 of 75; before: cut score 65 % of the items, that is 49 of 75.</li>",
            await client.PageAsync(await client.SendAsync("/exams/edit", form)),
            StringComparison.Ordinal);
        form["s0-cut-mark"] = "65";
        form["s0-unscored"] = "";
        Assert.Contains("<li>Care of collections: no longer 10 unscored.</li>", await client.PageAsync(await client.SendAsync("/exams/edit", form)), StringComparison.Ordinal);
        form["s0-unscored"] = "10";

        // Other weights can, with what they do to her chance.
        form["s0-t0-weight"] = "40 %";
        form["s0-t1-weight"] = "18 %";
        page = await client.PageAsync(await client.SendAsync("/exams/edit", form));
        Assert.Contains("Cataloguing has 30 items, 23 before.", page, StringComparison.Ordinal);
        Assert.Matches("Mara Venn</a></th><td class=\"num\">\\d+ %</td><td class=\"num\">\\d+ %</td>", page);
        Assert.DoesNotContain("30 items", await client.PageAsync(exam), StringComparison.Ordinal);
        page = await client.PageAsync(await client.SendAsync("/exams/keep", ExamClient.Fields(page, "/exams/keep")));
        Assert.Contains("The new version counts from now on, and plans are made anew.", page, StringComparison.Ordinal);
        Assert.Contains("The blueprint changed: Cataloguing has 30 items, 23 before", await client.PageAsync(person + "/kept"), StringComparison.Ordinal);

        // And back again.
        page = await client.PageAsync(await client.SendAsync(exam + "/take-back", ExamClient.Fields(page, exam + "/take-back")));
        Assert.Contains("The version that counts has changed.", page, StringComparison.Ordinal);
        Assert.Contains("The blueprint changed: Cataloguing has 23 items, 30 before", await client.PageAsync(person + "/kept"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_new_case_takes_an_exam_that_is_kept_instead_of_a_file()
    {
        using ExamClient client = Client();
        string exam = await MakeExamAsync(client, "Kept for cases");
        string key = exam.Split('/')[^1];
        Assert.Matches($"<option value=\"{key}\"[^>]*selected", await client.PageAsync("/new?exam=" + key));
        (string, string, byte[]) evidence = ("evidence", "ines-harrow.csv", await File.ReadAllBytesAsync(Path.Combine(Examples, "ines-harrow.csv"), TestContext.Current.CancellationToken));
        (string, string, byte[]) free = ("free", "free.yaml", await File.ReadAllBytesAsync(Path.Combine(Examples, "ines-harrow.free.yaml"), TestContext.Current.CancellationToken));
        Dictionary<string, string> fields = new() { ["exam-day"] = InThreeWeeks, ["candidate"] = "", ["kept-exam"] = key };

        // Something is missing first; the exam stays chosen, as a file that is kept.
        string address = await client.SendAsync("/new", fields, evidence);
        Assert.StartsWith("/new?draft=", address, StringComparison.Ordinal);
        Assert.Contains("Kept: <strong>exam.yaml</strong>", await client.PageAsync(address), StringComparison.Ordinal);

        address = await client.SendAsync("/new", fields, evidence, free);
        Assert.StartsWith("/case/ines-harrow-", address, StringComparison.Ordinal);
        Assert.Contains($"<a href=\"{address}\">Ines Harrow</a>", await client.PageAsync(exam), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/exams/nothing")]
    [InlineData("/exams/nothing/edit")]
    [InlineData("/exams/nothing/text")]
    [InlineData("/exams/nothing/paste")]
    [InlineData("/exams/nothing/change")]
    [InlineData("/exams/nothing/exam.yaml")]
    public async Task There_is_no_page_of_an_exam_that_is_not_kept(string path)
    {
        using ExamClient client = Client();
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(path)).Status);
    }

    [Fact]
    public async Task Forms_without_a_token_or_with_unknown_buttons_change_nothing()
    {
        using HttpClient bare = server.Client();
        foreach (string path in new[] { "/exams/edit", "/exams/check", "/exams/text", "/exams/paste", "/exams/upload", "/exams/keep", "/exams/x/materials", "/exams/x/take-back" })
        {
            using FormUrlEncodedContent form = new([new("do", "save")]);
            using HttpResponseMessage answer = await bare.PostAsync(new Uri(path, UriKind.Relative), form, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        }

        using ExamClient client = Client();
        foreach (string action in new[] { "explode", "remove-topic:0.99", "remove-topic:99999999999.0", "up-section:-1", "add-topic:" })
        {
            Assert.Equal(HttpStatusCode.BadRequest, (await client.PostAsync("/exams/edit", new Dictionary<string, string> { ["do"] = action, ["s0-name"] = "x" })).Status);
        }
    }

    [Fact]
    public async Task With_script_the_check_follows_the_typing_and_rows_come_without_a_jump()
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync("/exams/new");
        await page.FillAsync("#exam-name", "Typed with script");
        await page.FillAsync("#s0-name", "Whole exam");
        await page.FillAsync("#s0-scored", "40");
        await page.FillAsync("#s0-cut-mark", "70");
        await page.FillAsync("#s0-t0-name", "Sorting");
        await page.FillAsync("#s0-t0-weight", "60 %");
        await page.FillAsync("#s0-t1-name", "Safety");
        await page.FillAsync("#s0-t1-weight", "50 %");
        await Assertions.Expect(page.Locator("[data-problem='s0-topics']")).ToContainTextAsync("sum to 110");
        await Assertions.Expect(page.Locator("[data-checked]")).ToContainTextAsync("1 thing to mend");

        // A problem leads to its field; mending it mends the list.
        await page.FillAsync("#s0-t1-weight", "x");
        await page.Locator("[data-checked] a[data-field='s0-t1-weight']").ClickAsync();
        await Assertions.Expect(page.Locator("#s0-t1-weight")).ToBeFocusedAsync();
        Assert.Equal("true", await page.GetAttributeAsync("#s0-t1-weight", "aria-invalid"));
        await page.FillAsync("#s0-t1-weight", "40 %");
        await Assertions.Expect(page.Locator("[data-checked]")).ToContainTextAsync("Nothing to mend");
        await Assertions.Expect(page.Locator("[data-checked]")).ToContainTextAsync("Smallest topic: Safety, 16 items");

        // By keyboard: a new row takes the focus.
        await page.GetByRole(AriaRole.Button, new() { Name = "Add a subtopic to topic 2" }).FocusAsync();
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.Locator("#s0-t1-p0-name")).ToBeFocusedAsync();
        await page.Keyboard.TypeAsync("Dogs");
        Assert.Equal("Typed with script", await page.InputValueAsync("#exam-name"));
        await page.LooksRightAsync(page.Url);
        await page.GetByRole(AriaRole.Button, new() { Name = "Keep this exam" }).ClickAsync();
        await page.WaitForURLAsync("**/exams/typed-with-script-*");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The exam is kept.");
        await page.LooksRightAsync(page.Url);
        string address = page.Url.Split('?')[0];

        // A paste, on a phone.
        await page.SetViewportSizeAsync(390, 844);
        await page.GotoAsync(address + "/paste");
        await page.FillAsync("#pasted", Table);
        await page.GetByRole(AriaRole.Button, new() { Name = "Read it" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Heading, new() { Name = "What was understood" })).ToBeVisibleAsync();
        await page.LooksRightAsync(page.Url);
        await page.GotoAsync(address + "/edit");
        await page.LooksRightAsync(page.Url);
        Assert.Empty(watched.Complaints);
    }

    private static async Task<string> MakeExamAsync(ExamClient client, string name)
    {
        string yaml = (await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), TestContext.Current.CancellationToken))
            .Replace("exam: Certificate for Registrars of Small Museums", "exam: " + name, StringComparison.Ordinal);
        return (await client.SendAsync("/exams/upload", new Dictionary<string, string>(), ("file", "exam.yaml", Encoding.UTF8.GetBytes(yaml)))).Split('?')[0];
    }

    // A workbook whose one sheet unpacks to 200 MB.
    private static byte[] Bomb()
    {
        using MemoryStream stream = new();
        using (ZipArchive zip = new(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (string name in new[] { "[Content_Types].xml", "imsmanifest.xml", "xl/workbook.xml", "xl/worksheets/sheet1.xml" })
            {
                using Stream entry = zip.CreateEntry(name, CompressionLevel.Fastest).Open();
                byte[] blank = new byte[1 << 20];
                Array.Fill(blank, (byte)' ');
                for (int i = 0; i < 50; i++)
                {
                    entry.Write(blank);
                }
            }
        }

        return stream.ToArray();
    }
}
