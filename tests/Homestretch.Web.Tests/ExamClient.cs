using System.Net;
using System.Text;
using System.Text.RegularExpressions;

namespace Homestretch.Web.Tests;

/// <summary>Fills in forms as a browser without script does.</summary>
public sealed partial class ExamClient(HttpClient client) : IDisposable
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    /// <summary>A page's text.</summary>
    public async Task<string> PageAsync(string path) => await client.GetStringAsync(new Uri(path.Split('#')[0], UriKind.Relative), Cancellation);

    /// <summary>Status and text of an answer.</summary>
    public async Task<(HttpStatusCode Status, string Text)> GetAsync(string path)
    {
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), Cancellation);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(Cancellation));
    }

    /// <summary>Every field of the first form of a page with its value, by name; buttons are not among them.</summary>
    /// <param name="html">The page.</param>
    /// <param name="action">Where the form goes.</param>
    public static Dictionary<string, string> Fields(string html, string action)
    {
        string form = Regex.Match(html, $"<form[^>]*action=\"{Regex.Escape(action)}\".*?</form>", RegexOptions.Singleline).Value;
        Assert.NotEqual("", form);
        Dictionary<string, string> fields = [];
        foreach (Match input in Inputs().Matches(form).Where(i => !i.Value.Contains("type=\"radio\"", StringComparison.Ordinal) || i.Value.Contains("checked", StringComparison.Ordinal)))
        {
            fields[Attribute(input.Value, "name")] = Attribute(input.Value, "value");
        }

        foreach (Match area in Areas().Matches(form))
        {
            fields[Attribute(area.Groups[1].Value, "name")] = WebUtility.HtmlDecode(area.Groups[2].Value) is ['\n', .. var text] ? text : WebUtility.HtmlDecode(area.Groups[2].Value);
        }

        foreach (Match select in Selects().Matches(form))
        {
            Match chosen = Regex.Match(select.Groups[2].Value, "<option value=\"([^\"]*)\"[^>]*selected");
            fields[Attribute(select.Groups[1].Value, "name")] = WebUtility.HtmlDecode(chosen.Groups[1].Value);
        }

        fields.Remove("");
        return fields;
    }

    /// <summary>Sends a form; returns where it leads.</summary>
    public async Task<string> SendAsync(string action, IReadOnlyDictionary<string, string> fields, params (string Field, string Name, byte[] Content)[] files)
    {
        (HttpStatusCode status, string text, string? location) = await PostAsync(action, fields, files);
        Assert.True(status == HttpStatusCode.SeeOther, $"{status}: {text}");
        return location!;
    }

    /// <summary>Sends a form; returns the answer.</summary>
    public async Task<(HttpStatusCode Status, string Text, string? Location)> PostAsync(string action, IReadOnlyDictionary<string, string> fields, params (string Field, string Name, byte[] Content)[] files)
    {
        using MultipartFormDataContent form = await RouteTests.TokenFormAsync(client);
        foreach ((string name, string value) in fields.Where(f => f.Key != "__RequestVerificationToken"))
        {
            form.Add(new StringContent(value, Encoding.UTF8), name);
        }

        foreach ((string field, string name, byte[] content) in files)
        {
            form.Add(new ByteArrayContent(content), field, name);
        }

        using HttpResponseMessage answer = await client.PostAsync(new Uri(action, UriKind.Relative), form, Cancellation);
        return (answer.StatusCode, await answer.Content.ReadAsStringAsync(Cancellation), answer.Headers.Location?.ToString());
    }

    public void Dispose() => client.Dispose();

    private static string Attribute(string element, string name) => WebUtility.HtmlDecode(Regex.Match(element, $"\\s{name}=\"([^\"]*)\"").Groups[1].Value);

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Inputs();

    [GeneratedRegex("(<textarea[^>]*>)(.*?)</textarea>", RegexOptions.Singleline)]
    private static partial Regex Areas();

    [GeneratedRegex("(<select[^>]*>)(.*?)</select>", RegexOptions.Singleline)]
    private static partial Regex Selects();
}
