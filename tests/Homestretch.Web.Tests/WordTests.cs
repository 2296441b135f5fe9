using System.Globalization;
using System.Net;
using System.Text;
using System.Text.RegularExpressions;

namespace Homestretch.Web.Tests;

/// <summary>Words, noted and practised by the candidate and defined by the coach, over HTTP.</summary>
public sealed class WordTests(SharedServer server)
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_word_is_noted_defined_recalled_once_and_taken_back()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await PersonalTests.MakeByRequestsAsync(client, "words: one");
        string page = link + "/words";

        (string noted, string list) = await PersonalTests.PostAsync(client, page, page, ("term", "  frass "), ("topic", ""), ("definition", ""));
        Assert.StartsWith(page + "?noted=frass", noted, StringComparison.Ordinal);
        Assert.Contains("Noted: frass. It can be practised once it has a meaning", list, StringComparison.Ordinal);
        (_, list) = await PersonalTests.PostAsync(client, page, page, ("term", "FRASS"), ("topic", ""), ("definition", ""));
        Assert.Contains("frass is in your list already", list, StringComparison.Ordinal);
        Assert.Contains("Nothing more to practise today", await PageAsync(client, page + "/practice"), StringComparison.Ordinal);

        // What is noted today is met today; missed some days ago, it is due. The coach's definition is enough to practise with.
        Assert.Contains("Imported: 1 word, 1 answer.", await ImportAsync(client, address + "/words", MissedWord("")), StringComparison.Ordinal);
        (_, string coach) = await PersonalTests.PostAsync(client, address + "/words", address + "/words", ("word-0", "frass"), ("definition-0", "what insects leave"));
        Assert.Contains("1 definition kept", coach, StringComparison.Ordinal);
        Assert.Contains("1 word to recall today, about 1 minute", await PageAsync(client, link), StringComparison.Ordinal);
        string practice = await PageAsync(client, page + "/practice");
        Assert.Contains("<h1 class=\"recall-term\">frass</h1>", practice, StringComparison.Ordinal);
        Assert.Contains("what insects leave", practice, StringComparison.Ordinal);

        (_, string wrong) = await PersonalTests.PostAsync(client, page, page + "/recall", ("word", "frass"), ("outcome", "perhaps"));
        Assert.Contains("Nothing was recorded", wrong, StringComparison.Ordinal);
        (string did, string after) = await PersonalTests.PostAsync(client, page, page + "/recall", ("word", "frass"), ("outcome", "not"));
        Assert.Contains("frass: not known yet.", after, StringComparison.Ordinal);
        Assert.Contains("Nothing more to practise today", after, StringComparison.Ordinal);
        Assert.Equal(did, (await PersonalTests.PostAsync(client, page, page + "/recall", ("word", "frass"), ("outcome", "knew"))).Address);

        await PersonalTests.PostAsync(client, page, page + "/take-back", ("ids", did[(did.IndexOf('=', StringComparison.Ordinal) + 1)..]));
        Assert.Contains("<h1 class=\"recall-term\">frass</h1>", await PageAsync(client, page + "/practice"), StringComparison.Ordinal);

        (_, list) = await PersonalTests.PostAsync(client, page + "?edit=frass", page + "/edit", ("word", "frass"), ("topic", "Cataloguing"), ("definition", "dust"));
        Assert.Contains("Saved: frass.", list, StringComparison.Ordinal);
        Assert.Contains("what insects leave", list, StringComparison.Ordinal);
        (string gone, list) = await PersonalTests.PostAsync(client, page + "?edit=frass", page + "/delete", ("word", "frass"));
        Assert.Contains("Deleted: frass.", list, StringComparison.Ordinal);
        string[] ids = [.. gone.Split(['?', '&']).Skip(1).Select(p => WebUtility.UrlDecode(p.Split('=')[1]))];
        (_, list) = await PersonalTests.PostAsync(client, page, page + "/put-back", ("rows", ids[1]), ("recalls", ids[2]));
        Assert.Contains("It is back in your list.", list, StringComparison.Ordinal);
        Assert.Contains("what insects leave", list, StringComparison.Ordinal);
        Assert.Contains("No word has this in it", await PageAsync(client, page + "?find=glue"), StringComparison.Ordinal);
        Assert.Contains("<strong>frass</strong>", await PageAsync(client, page + "?find=INSECTS"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_a_word_is_refused_with_what_would_be_accepted_and_markup_stays_text()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (_, string link, _) = await PersonalTests.MakeByRequestsAsync(client, "words: refused");
        string page = link + "/words";

        (_, string html) = await PersonalTests.PostAsync(client, page, page, ("term", new string('x', 81)), ("topic", ""), ("definition", "kept as typed"));
        Assert.Contains("is 81 characters long; at most 80", html, StringComparison.Ordinal);
        Assert.Contains("kept as typed", html, StringComparison.Ordinal);
        (_, html) = await PersonalTests.PostAsync(client, page, page, ("term", "glass"), ("topic", "Astronomy"), ("definition", ""));
        Assert.Contains("Nothing was kept", html, StringComparison.Ordinal);
        Assert.Contains("Astronomy", html, StringComparison.Ordinal);
        (_, html) = await PersonalTests.PostAsync(client, page, page, ("term", " "), ("topic", ""), ("definition", ""));
        Assert.Contains("write the word or the words to learn", html, StringComparison.Ordinal);

        await PersonalTests.PostAsync(client, page, page, ("term", "<script>alert(1)</script>"), ("topic", ""), ("definition", "=cmd()"));
        html = await client.GetStringAsync(new Uri(page, UriKind.Relative), Cancellation);
        Assert.Contains("&lt;script&gt;alert(1)", html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>alert", html, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_definition_for_everybody_reaches_those_who_noted_the_term_and_nobody_else()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await PersonalTests.MakeByRequestsAsync(client, "words: room");
        (_, string second, _) = await PersonalTests.MakeByRequestsAsync(client, "words: room");
        (_, string elsewhere, _) = await PersonalTests.MakeByRequestsAsync(client, "words: another room");
        foreach (string each in new[] { link, second, elsewhere })
        {
            await PersonalTests.PostAsync(client, each + "/words", each + "/words", ("term", "frass"), ("topic", ""), ("definition", ""));
        }

        (_, string html) = await PersonalTests.PostAsync(client, address + "/words", address + "/words", ("word-0", "frass"), ("definition-0", "what insects leave"), ("everywhere", "yes"));

        Assert.Contains("2 definitions kept", html, StringComparison.Ordinal);

        // One that cannot be kept keeps the others back, everywhere; a term that this person has not noted reaches nobody.
        await PersonalTests.PostAsync(client, second + "/words", second + "/words", ("term", "glue"), ("topic", ""), ("definition", ""));
        await PersonalTests.PostAsync(client, link + "/words", link + "/words", ("term", "mount"), ("topic", ""), ("definition", ""));
        (_, html) = await PersonalTests.PostAsync(
            client, address + "/words", address + "/words", ("word-0", "frass"), ("definition-0", "dust of insects"), ("word-1", "mount"), ("definition-1", new string('x', 1001)), ("everywhere", "yes"));
        Assert.Contains("Nothing was kept", html, StringComparison.Ordinal);
        (_, html) = await PersonalTests.PostAsync(client, address + "/words", address + "/words", ("word-0", "glue"), ("definition-0", "it sticks"), ("everywhere", "yes"));
        Assert.Contains("0 definitions kept", html, StringComparison.Ordinal);
        Assert.DoesNotContain("dust of insects", await PageAsync(client, second + "/words"), StringComparison.Ordinal);
        Assert.DoesNotContain("it sticks", await PageAsync(client, second + "/words"), StringComparison.Ordinal);
        Assert.Contains("what insects leave", await PageAsync(client, second + "/words"), StringComparison.Ordinal);
        Assert.DoesNotContain("what insects leave", await PageAsync(client, elsewhere + "/words"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_goes_in_whole_or_not_at_all_and_comes_out_again()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await PersonalTests.MakeByRequestsAsync(client, "words: files");
        string page = address + "/words";

        string html = await ImportAsync(client, page, "term,noted\nfrass,2026-11-26\n=glass,yesterday\n");
        Assert.Contains("words.csv:3: ", html, StringComparison.Ordinal);
        Assert.Contains("No words yet", html, StringComparison.Ordinal);

        const string Good = "term,topic,definition,coach definition,noted,answers\nfrass,Preventive conservation / Pests,dust,,2026-11-26,\"2026-11-27 not; 2026-11-28 knew\"\n'=glass,,x,,2026-11-26,\n";
        Assert.Contains("Imported: 2 words, 2 answers.", await ImportAsync(client, page, Good), StringComparison.Ordinal);
        Assert.Contains("says nothing that is not here already", await ImportAsync(client, page, Good), StringComparison.Ordinal);
        Assert.Contains("Imported: 1 word, 0 answers.", await ImportAsync(client, page, Good.Replace("dust,", "\"dust, droppings\",", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Equal(Good.Replace("dust,", "\"dust, droppings\",", StringComparison.Ordinal), await client.GetStringAsync(new Uri(page + ".csv", UriKind.Relative), Cancellation));
        Assert.Contains("dust, droppings", await PageAsync(client, link + "/words"), StringComparison.Ordinal);

        using HttpResponseMessage cards = await client.GetAsync(new Uri(address + "/cards", UriKind.Relative), Cancellation);
        Assert.StartsWith("default-src 'none'; style-src 'sha256-", cards.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Contains("dust, droppings", await cards.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await client.GetAsync(new Uri("/case/mara-venn/words", UriKind.Relative), Cancellation)).StatusCode);
    }

    [Fact]
    public async Task Words_and_recalls_are_among_what_is_kept_and_go_out_and_come_back_there()
    {
        using HttpClient client = new() { BaseAddress = server.Process.Address };
        (string address, string link, _) = await PersonalTests.MakeByRequestsAsync(client, "words: kept");
        string kept = address + "/kept";
        Assert.Contains("No words", await PageAsync(client, kept), StringComparison.Ordinal);
        await ImportAsync(client, address + "/words", MissedWord("dust <b>"));
        await PersonalTests.PostAsync(client, link + "/words?edit=frass", link + "/words/edit", ("word", "frass"), ("topic", "Cataloguing"), ("definition", "droppings"));

        string html = await client.GetStringAsync(new Uri(kept, UriKind.Relative), Cancellation);
        Assert.DoesNotContain("dust <b>", html, StringComparison.Ordinal);
        html = WebUtility.HtmlDecode(html);
        Assert.Matches("<strong>frass</strong>\\s*<span class=\"muted\">“dust <b>”, written anew since; from words.csv on ", html);
        Assert.Matches("<strong>frass</strong>\\s*<span class=\"muted\">Cataloguing, “droppings”; entered by the candidate on ", html);
        Assert.Matches("<strong>frass</strong>\\s*<span class=\"muted\">\\d{4}-\\d\\d-\\d\\d, not; from words.csv on ", html);

        // The row that was written last gives way to the one before it, and to none.
        string[] words = [.. Ids(html, "WordRow")];
        string recall = Assert.Single(Ids(html, "RecallRow"));
        (string at, _) = await PersonalTests.PostAsync(client, kept, address + "/take-out", ("kind", "WordRow"), ("ids", words[1]));
        Assert.EndsWith("/kept", at, StringComparison.Ordinal);
        Assert.Contains("dust <b>", await PageAsync(client, link + "/words"), StringComparison.Ordinal);
        (_, html) = await PersonalTests.PostAsync(client, kept, address + "/take-out", ("kind", "WordRow"), ("ids", words[0]));
        Assert.DoesNotContain("<strong>frass</strong>", await PageAsync(client, link + "/words"), StringComparison.Ordinal);
        Assert.Contains("<s>frass</s>", html, StringComparison.Ordinal);
        await PersonalTests.PostAsync(client, kept, address + "/put-back", ("kind", "WordRow"), ("ids", words[0]));
        Assert.Contains("1 word to recall today", await PageAsync(client, link), StringComparison.Ordinal);

        // A recall from before the day of noting cannot come back: nothing changes, and the pages stay readable.
        await PersonalTests.PostAsync(client, kept, address + "/take-out", ("kind", "RecallRow"), ("ids", recall));
        string yesterday = DateTime.UtcNow.AddDays(-1).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        await ImportAsync(client, address + "/words", $"term,definition,noted\nfrass,dust,{yesterday}\n");
        (at, html) = await PersonalTests.PostAsync(client, kept, address + "/put-back", ("kind", "RecallRow"), ("ids", recall));
        Assert.EndsWith("/kept?words=unreadable", at, StringComparison.Ordinal);
        Assert.Contains("Nothing was changed: a word would be left with a recall from before", html, StringComparison.Ordinal);
        Assert.Contains("<strong>frass</strong>", await PageAsync(client, link + "/words"), StringComparison.Ordinal);
        using StringContent ids = new($"{{\"ids\": [{words[1]}]}}", Encoding.UTF8, "application/json");
        using HttpResponseMessage back = await client.PostAsync(new Uri($"/api/v1/cases/{address.Split('/')[^1]}/words/put-back", UriKind.Relative), ids, Cancellation);
        Assert.Equal(HttpStatusCode.OK, back.StatusCode);
    }

    private static IEnumerable<string> Ids(string html, string kind)
        => Regex.Matches(html, $"name=\"kind\" value=\"{kind}\"[^>]*>\\s*<input type=\"hidden\" name=\"ids\" value=\"(\\d+)\"").Select(m => m.Groups[1].Value).OrderBy(i => long.Parse(i, CultureInfo.InvariantCulture));

    /// <summary>A file with a word that is due today: noted and not known some days ago.</summary>
    internal static string MissedWord(string definition)
    {
        string Day(int ago) => DateTime.UtcNow.AddDays(-ago).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        return $"term,definition,noted,answers\nfrass,{definition},{Day(4)},{Day(3)} not\n";
    }

    internal static async Task<string> ImportAsync(HttpClient client, string page, string csv)
    {
        using MultipartFormDataContent form = new()
        {
            { new ByteArrayContent(Encoding.UTF8.GetBytes(csv)), "words", "words.csv" },
            { new StringContent(await PersonalTests.FormTokenAsync(client, page)), "__RequestVerificationToken" },
        };
        using HttpResponseMessage answer = await client.PostAsync(new Uri(page + "/import", UriKind.Relative), form, Cancellation);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancellation));
    }

    private static async Task<string> PageAsync(HttpClient client, string path) => WebUtility.HtmlDecode(await client.GetStringAsync(new Uri(path, UriKind.Relative), Cancellation));
}
