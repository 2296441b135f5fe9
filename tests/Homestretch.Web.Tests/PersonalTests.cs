using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;


using Homestretch.Store;

using Microsoft.Playwright;

namespace Homestretch.Web.Tests;

/// <summary>The candidate's own pages, on a phone: found by a personal link, blocks marked with one tap, quizzes recorded, undone, looked at, subscribed to.</summary>
public sealed class PersonalTests(SharedServer server, SharedBrowser browser)
{
    private const int PhoneWidth = 390;
    private const int PhoneHeight = 844;

    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task A_block_is_done_with_one_tap_and_undone_with_another(bool script)
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight, script: script);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        ILocator first = page.Locator("section[aria-labelledby=today-title] .block-card").First;
        string topic = await first.Locator("strong").InnerTextAsync();

        await first.GetByRole(AriaRole.Button, new() { NameString = "Done: " + topic }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync($"Recorded: {topic}, done, ");
        await Assertions.Expect(page.Locator("section[aria-labelledby=today-title] .said")).ToHaveCountAsync(1);
        Assert.Contains("entered by the candidate", await KeptAsync(address, "study-title"), StringComparison.Ordinal);
        Assert.Equal(2, await MomentsAsync(page, link));

        await page.GotoAsync(link);
        await page.Locator("section[aria-labelledby=today-title] .said").GetByRole(AriaRole.Button).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Taken back");
        await Assertions.Expect(page.Locator(".said")).ToHaveCountAsync(0);
        Assert.Contains("taken out on", await KeptAsync(address, "study-title"), StringComparison.Ordinal);
        Assert.Equal(3, await MomentsAsync(page, link));
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task The_coach_sees_the_plan_that_the_candidate_has()
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight, script: false);
        IPage page = watched.Page;

        // A plan that has gone on twice, so that one made from scratch would name its blocks otherwise.
        await page.GotoAsync(link);
        await page.Locator("section[aria-labelledby=today-title] .block-card").First.GetByRole(AriaRole.Button, new() { NameString = "Missed: " }).ClickAsync();
        await page.Locator("section[aria-labelledby=today-title] .block-card:not(.said)").First.GetByRole(AriaRole.Button, new() { NameString = "Done: " }).ClickAsync();
        string feed = await (await page.APIRequest.GetAsync(server.At((await page.GetAttributeAsync("a[href^='/feed/']", "href"))!).ToString())).TextAsync();
        string own = await (await page.APIRequest.GetAsync(server.At(address + "/plan.ics").ToString())).TextAsync();

        // The coach's file is made now: blocks that began a moment ago may be missing from it, and nothing else.
        string[] seen = Events(feed);
        string[] coachs = Events(own);
        Assert.True(coachs.Length >= 5);
        Assert.Equal(seen[^coachs.Length..], coachs);
        Assert.InRange(seen.Length - coachs.Length, 0, 1);

        static string[] Events(string calendar) => [.. calendar.ReplaceLineEndings("\n").Split("BEGIN:VEVENT\n").Skip(1)
            .Where(e => !e.Contains("STATUS:CANCELLED", StringComparison.Ordinal))
            .Select(e => string.Join(' ', e.Split('\n').Where(l => l.StartsWith("UID:", StringComparison.Ordinal) || l.StartsWith("DTSTART", StringComparison.Ordinal))))
            .OrderBy(e => e[(e.IndexOf("DTSTART", StringComparison.Ordinal))..], StringComparer.Ordinal)];
    }

    [Fact]
    public async Task A_missed_and_a_partly_done_block_are_told_apart()
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight, script: false);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        ILocator first = page.Locator("section[aria-labelledby=today-title] .block-card").First;
        DateTimeOffset start = DateTimeOffset.Parse(await first.Locator("input[name=start]").InputValueAsync(), CultureInfo.InvariantCulture);
        await first.GetByRole(AriaRole.Button, new() { NameString = "Missed: " }).ClickAsync();
        Assert.Contains(", missed.", await page.GetByRole(AriaRole.Status).InnerTextAsync(), StringComparison.Ordinal);

        // Known before its time came, that time is no longer planned with.
        string calendar = await (await page.APIRequest.GetAsync(server.At((await page.GetAttributeAsync("a[href^='/feed/']", "href"))!).ToString())).TextAsync();
        Assert.Contains("BEGIN:VEVENT", calendar, StringComparison.Ordinal);
        Assert.DoesNotContain($"DTSTART:{start.UtcDateTime:yyyyMMdd'T'HHmmss'Z'}", calendar, StringComparison.Ordinal);

        ILocator open = page.Locator("section[aria-labelledby=today-title] .block-card:not(.said)").First;
        await open.Locator("input[name=minutes]").FillAsync("7");
        await open.GetByRole(AriaRole.Button, new() { NameString = "Partly: " }).ClickAsync();
        Assert.Contains(", partly done, 7 min.", await page.GetByRole(AriaRole.Status).InnerTextAsync(), StringComparison.Ordinal);

        string kept = await KeptAsync(address, "study-title");
        Assert.Contains("missed", kept, StringComparison.Ordinal);
        Assert.Contains("7 min, partly done", kept, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_quiz_changes_plan_and_pass_chance_at_once_and_the_page_says_what_changed()
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        await page.GetByRole(AriaRole.Link, new() { Name = "Short quiz" }).ClickAsync();
        await page.Locator("input[name=right-0]").FillAsync("0");
        await page.Locator("input[name=of-0]").FillAsync("30");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the quiz" }).ClickAsync();
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("The quiz is recorded");

        Assert.Matches("quiz \\d{4}-\\d\\d-\\d\\d", await KeptAsync(address, "evidence-title"));
        await page.GetByRole(AriaRole.Link, new() { Name = "Where I stand" }).ClickAsync();
        await Assertions.Expect(page.Locator("section[aria-labelledby=changed-title]")).ToContainTextAsync("A short quiz: 0 of 30 on ");
        await Assertions.Expect(page.Locator("section[aria-labelledby=changed-title]")).ToContainTextAsync("The pass chance with the plan went from ");
        Assert.Equal(2, await page.Locator(".hs-history tbody tr").CountAsync());
        await Assertions.Expect(page.Locator(".hs-history svg title")).ToHaveTextAsync("Pass chance over time");
        Assert.Empty(watched.Complaints);
    }

    [Fact]
    public async Task A_quiz_that_cannot_be_is_refused_and_what_was_typed_stays()
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight, script: false);
        IPage page = watched.Page;
        await page.GotoAsync(link + "/quiz");
        string before = await KeptAsync(address, "evidence-title");
        await page.Locator("input[name=right-1]").FillAsync("5");
        await page.Locator("input[name=of-1]").FillAsync("4");
        await page.GetByRole(AriaRole.Button, new() { Name = "Record the quiz" }).ClickAsync();

        Assert.Contains("Nothing was recorded", await page.GetByRole(AriaRole.Alert).InnerTextAsync(), StringComparison.Ordinal);
        Assert.Equal(("5", "4"), (await page.InputValueAsync("input[name=right-1]"), await page.InputValueAsync("input[name=of-1]")));
        Assert.Equal(before, await KeptAsync(address, "evidence-title"));
    }

    [Fact]
    public async Task The_calendar_feed_says_when_nothing_has_changed_and_stays_current()
    {
        (_, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight, script: false);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        string feed = (await page.GetAttributeAsync("a[href^='/feed/']", "href"))!;
        using HttpClient client = server.Client();

        using HttpResponseMessage first = await client.GetAsync(new Uri(feed, UriKind.Relative), Cancellation);
        string calendar = await first.Content.ReadAsStringAsync(Cancellation);
        Assert.Equal("text/calendar", first.Content.Headers.ContentType?.MediaType);
        Assert.True(first.Headers.CacheControl?.NoCache);
        Assert.Equal(
            await page.Locator("section[aria-labelledby=today-title] .block-card, section[aria-labelledby=next-title] .block-card").CountAsync() + 1,
            calendar.Split("BEGIN:VEVENT").Length - 1);

        using HttpResponseMessage same = await AgainAsync(client, feed, first.Headers.ETag!);
        Assert.Equal(HttpStatusCode.NotModified, same.StatusCode);

        await page.Locator(".block-card").First.GetByRole(AriaRole.Button, new() { NameString = "Done: " }).ClickAsync();
        using HttpResponseMessage changed = await AgainAsync(client, feed, first.Headers.ETag!);
        Assert.Equal(HttpStatusCode.OK, changed.StatusCode);
        Assert.NotEqual(first.Headers.ETag, changed.Headers.ETag);
    }

    [Fact]
    public async Task A_link_opens_nothing_once_it_is_revoked_and_neither_does_a_guess()
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        string feed = (await page.GetAttributeAsync("a[href^='/feed/']", "href"))!;
        string token = link.Split('/')[^1];
        using HttpClient client = server.Client();
        async Task<HttpStatusCode> Status(string path) => (await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation)).StatusCode;

        Assert.True(token.Length >= 22, "22 letters of base64url are 128 bits.");
        Assert.Equal(HttpStatusCode.OK, await Status(link));
        foreach (string guess in new[] { $"/me/{token[..^1]}", $"/me/{token}A", $"/feed/{token}.ics", feed.Replace("/feed/", "/me/", StringComparison.Ordinal)[..^4], "/me/" + new string('a', 5000) })
        {
            Assert.Equal(HttpStatusCode.NotFound, await Status(guess));
        }

        await page.GotoAsync(address + "/link");
        await page.GetByRole(AriaRole.Button, new() { Name = "Revoke the link" }).ClickAsync();
        await Assertions.Expect(page.GetByText("There is no link in use.")).ToBeVisibleAsync();
        Assert.Equal(HttpStatusCode.NotFound, await Status(link));
        Assert.Equal(HttpStatusCode.NotFound, await Status(link + "/quiz"));
        Assert.Equal(HttpStatusCode.NotFound, await Status(feed));
    }

    [Fact]
    public async Task A_new_link_replaces_the_old_one()
    {
        (string address, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server);
        IPage page = watched.Page;
        await page.GotoAsync(address + "/link");
        await page.GetByRole(AriaRole.Button, new() { Name = "Make a new link" }).ClickAsync();
        string other = (await page.GetAttributeAsync("a[href^='/me/']", "href"))!;

        Assert.NotEqual(link, other);
        Assert.Equal(404, (await page.APIRequest.GetAsync(server.At(link).ToString())).Status);
        Assert.Equal(200, (await page.APIRequest.GetAsync(server.At(other).ToString())).Status);
    }

    [Fact]
    public async Task The_pages_ask_not_to_be_listed_and_tell_no_other_site_where_they_are()
    {
        (_, string link) = await LinkedAsync();
        using HttpClient client = server.Client();
        using HttpResponseMessage answer = await client.GetAsync(new Uri(link, UriKind.Relative), Cancellation);

        Assert.Equal(["noindex, nofollow"], answer.Headers.GetValues("X-Robots-Tag"));
        Assert.Equal(["no-referrer"], answer.Headers.GetValues("Referrer-Policy"));
        string html = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.Contains("<meta name=\"robots\" content=\"noindex, nofollow\"", html, StringComparison.Ordinal);
        Assert.DoesNotContain("/case/", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<a class=\"wordmark\"", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Somebody_without_the_form_token_records_nothing()
    {
        (_, string link) = await LinkedAsync();
        using HttpClient client = server.Client();
        using FormUrlEncodedContent form = new(new Dictionary<string, string> { ["right-0"] = "1", ["of-0"] = "2" });

        Assert.Equal(HttpStatusCode.BadRequest, (await client.PostAsync(new Uri(link + "/quiz", UriKind.Relative), form, Cancellation)).StatusCode);
    }

    [Fact]
    public async Task The_link_can_be_scanned_and_is_in_no_file()
    {
        string folder = Path.Combine(Path.GetTempPath(), "homestretch-link-" + Guid.NewGuid().ToString("N"));
        try
        {
            await using ServerProcess own = await ServerProcess.StartAsync(folder);
            using HttpClient client = new(new HttpClientHandler { AllowAutoRedirect = true }) { BaseAddress = own.Address };
            (_, string link, string html) = await MakeByRequestsAsync(client);
            string token = link.Split('/')[^1];

            Assert.Contains("class=\"qr\"", html, StringComparison.Ordinal);
            Assert.All(Directory.GetFiles(folder, "*", SearchOption.AllDirectories), file =>
            {
                using FileStream stream = new(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
                using MemoryStream copy = new();
                stream.CopyTo(copy);
                Assert.True(copy.ToArray().AsSpan().IndexOf(Encoding.ASCII.GetBytes(token)) < 0, file);
            });
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Too_many_visits_are_turned_away_and_the_coachs_pages_are_not()
    {
        string folder = Path.Combine(Path.GetTempPath(), "homestretch-limit-" + Guid.NewGuid().ToString("N"));
        try
        {
            await using ServerProcess own = await ServerProcess.StartAsync(folder);
            using HttpClient client = new() { BaseAddress = own.Address };
            int turnedAway = 0;
            for (int i = 0; i < 1500 && turnedAway == 0; i++)
            {
                using HttpResponseMessage answer = await client.GetAsync(new Uri($"/feed/guess-{i}.ics", UriKind.Relative), Cancellation);
                turnedAway += answer.StatusCode == HttpStatusCode.TooManyRequests ? 1 : 0;
            }

            Assert.Equal(1, turnedAway);
            Assert.Equal(HttpStatusCode.OK, (await client.GetAsync(new Uri("/", UriKind.Relative), Cancellation)).StatusCode);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task At_the_candidates_own_address_nothing_of_the_coach_answers()
    {
        string folder = Path.Combine(Path.GetTempPath(), "homestretch-door-" + Guid.NewGuid().ToString("N"));
        using TcpListener free = new(IPAddress.Loopback, 0);
        free.Start();
        int port = ((IPEndPoint)free.LocalEndpoint).Port;
        free.Stop();
        try
        {
            await using ServerProcess own = await ServerProcess.StartAsync(folder, "Development", "--candidates", string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}"));
            using HttpClient coach = new() { BaseAddress = own.Addresses.Single(a => a.Port != port) };
            using HttpClient candidate = new() { BaseAddress = new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}")) };
            (string address, string link, _) = await MakeByRequestsAsync(coach);
            async Task<HttpStatusCode> Status(string path) => (await candidate.GetAsync(new Uri(path, UriKind.Relative), Cancellation)).StatusCode;

            Assert.Equal(HttpStatusCode.OK, await Status(link));
            Assert.Equal(HttpStatusCode.OK, await Status("/look.css"));
            foreach (string path in new[] { "/", "/new", address, address + "/kept", address + "/export", "/export", "/case/mara-venn", "/specimens", "/examples/exam.yaml" })
            {
                Assert.Equal(HttpStatusCode.NotFound, await Status(path));
            }
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    [Fact]
    public async Task Every_page_is_without_violation_light_and_dark()
    {
        string address, link;
        using (HttpClient client = new() { BaseAddress = server.Process.Address })
        {
            (address, link, _) = await MakeByRequestsAsync(client, nameof(Every_page_is_without_violation_light_and_dark));
            await PostAsync(client, link + "/words", link + "/words", ("term", "frass"), ("definition", "dust and droppings that insects leave"));
            await MaterialTests.AddAsync(server.Data, address, (ExamFileRole.QuizItems, "quiz-items.csv"));
        }

        foreach ((int width, ColorScheme colours) in new[] { (PhoneWidth, ColorScheme.Light), (PhoneWidth, ColorScheme.Dark), (1280, ColorScheme.Light), (320, ColorScheme.Light) })
        {
            await using WatchedPage watched = await browser.OpenAsync(server, width, PhoneHeight, colours);
            foreach (string path in new[] { link, link + "/quiz?wrong=yes", link + "/standing", address + "/link", link + "/words", link + "/words?edit=frass", link + "/words/practice", link + "/quiz/items?topic=Cataloguing", address + "/words?problem=x" })
            {
                await watched.Page.GotoAsync(path);
                await watched.Page.LooksRightAsync($"{path} at {width}");
            }

            Assert.Empty(watched.Complaints);
        }
    }

    [Fact]
    public async Task With_the_keyboard_alone_a_block_is_marked()
    {
        (_, string link) = await LinkedAsync();
        await using WatchedPage watched = await browser.OpenAsync(server, PhoneWidth, PhoneHeight);
        IPage page = watched.Page;
        await page.GotoAsync(link);
        for (int i = 0; i < 20 && !await page.EvaluateAsync<bool>("(document.activeElement?.getAttribute('aria-label') ?? '').startsWith('Missed: ')"); i++)
        {
            await page.Keyboard.PressAsync("Tab");
        }

        Assert.True(await page.EvaluateAsync<bool>("getComputedStyle(document.activeElement).outlineStyle !== 'none'"), "The button shows no focus.");
        await page.Keyboard.PressAsync("Enter");
        await Assertions.Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync(", missed.");
    }

    private static string FreeTime => $"zone: {Morning.Zone}\nweekly:\n  - day: Monday to Sunday\n    from: 08:00\n    to: 20:00\n";

    private static string ExamDay => Morning.Day(14);

    private static async Task<HttpResponseMessage> AgainAsync(HttpClient client, string path, EntityTagHeaderValue seen)
    {
        using HttpRequestMessage request = new(HttpMethod.Get, path);
        request.Headers.IfNoneMatch.Add(seen);
        return await client.SendAsync(request, Cancellation);
    }

    // Without a browser: a case, and the page that shows its new link; with an exam of its own where others must not see what is kept with it.
    internal static async Task<(string Address, string Link, string Html)> MakeByRequestsAsync(HttpClient client, string? exam = null)
    {
        using MultipartFormDataContent form = new()
        {
            { new StringContent(await File.ReadAllTextAsync(Path.Combine(Examples, "exam.yaml"), Cancellation) + (exam is null ? "" : $"\n# {exam}\n")), "exam", "exam.yaml" },
            { new ByteArrayContent(await File.ReadAllBytesAsync(Path.Combine(Examples, "ines-harrow.csv"), Cancellation)), "evidence", "ines-harrow.csv" },
            { new ByteArrayContent(Encoding.UTF8.GetBytes(FreeTime)), "free", "free.yaml" },
            { new StringContent(ExamDay), "exam-day" },
            { new StringContent(await FormTokenAsync(client, "/new")), "__RequestVerificationToken" },
        };
        using HttpResponseMessage made = await client.PostAsync(new Uri("/new", UriKind.Relative), form, Cancellation);
        string address = made.RequestMessage!.RequestUri!.AbsolutePath;
        Assert.StartsWith("/case/ines-harrow-", address, StringComparison.Ordinal);
        using FormUrlEncodedContent link = new(new Dictionary<string, string> { ["__RequestVerificationToken"] = await FormTokenAsync(client, address + "/link") });
        using HttpResponseMessage linked = await client.PostAsync(new Uri(address + "/link", UriKind.Relative), link, Cancellation);
        string html = await linked.Content.ReadAsStringAsync(Cancellation);
        int at = html.IndexOf("href=\"/me/", StringComparison.Ordinal) + 6;
        return (address, html[at..html.IndexOf('"', at)], html);
    }

    internal static async Task<string> FormTokenAsync(HttpClient client, string path)
    {
        const string Before = "name=\"__RequestVerificationToken\" value=\"";
        string html = await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation);
        int at = html.IndexOf(Before, StringComparison.Ordinal) + Before.Length;
        return html[at..html.IndexOf('"', at)];
    }

    /// <summary>Sends a form of a page as a browser would, and follows where it leads: the address there and the page, with its entities decoded.</summary>
    internal static async Task<(string Address, string Html)> PostAsync(HttpClient client, string page, string to, params (string Name, string Value)[] fields)
    {
        using FormUrlEncodedContent form = new([.. fields.Select(f => KeyValuePair.Create(f.Name, f.Value)), KeyValuePair.Create("__RequestVerificationToken", await FormTokenAsync(client, page))]);
        using HttpResponseMessage answer = await client.PostAsync(new Uri(to, UriKind.Relative), form, Cancellation);
        return (answer.RequestMessage!.RequestUri!.PathAndQuery, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancellation)));
    }

    /// <summary>A new case with a link: its address on the coach's side, and the link.</summary>
    private async Task<(string Address, string Link)> LinkedAsync()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await MakeByRequestsAsync(client);
        return (address, link);
    }

    private async Task<string> KeptAsync(string address, string section)
    {
        await using WatchedPage watched = await browser.OpenAsync(server);
        await watched.Page.GotoAsync(address + "/kept");
        return await watched.Page.InnerTextAsync($"section[aria-labelledby={section}]");
    }

    private static async Task<int> MomentsAsync(IPage page, string link)
    {
        await page.GotoAsync(link + "/standing");
        return await page.Locator(".hs-history tbody tr").CountAsync();
    }
}
