using System.Net;
using System.Net.Sockets;
using System.Text.RegularExpressions;

namespace Homestretch.Load;

/// <summary>Visits pages as people do: from several addresses, each with its cookies.</summary>
internal sealed partial class Visitors : IDisposable
{
    // The candidates' pages have a limit for each address, so that one visitor cannot take them from the others.
    private const int Addresses = 100;

    private readonly HttpClient[] _clients;
    private readonly int _candidates;

    /// <param name="server">Where the server listens.</param>
    /// <param name="candidates">How many candidates are stored.</param>
    public Visitors(Uri server, int candidates)
    {
        _candidates = candidates;
        _clients = [.. Enumerable.Range(2, Addresses).Select(i => new HttpClient(Handler((byte)i)) { BaseAddress = server, Timeout = TimeSpan.FromSeconds(60) })];
    }

    /// <summary>The pages with their shares of all visits, in percent.</summary>
    public static IReadOnlyList<(string Page, int Share)> Mix { get; } =
        [("list", 8), ("list, by name", 4), ("case", 16), ("kept", 8), ("today", 34), ("feed", 18), ("tap: done", 12)];

    /// <summary>A page drawn by its share.</summary>
    public static string Draw(Random random)
    {
        int at = random.Next(Mix.Sum(m => m.Share));
        return Mix.First(m => (at -= m.Share) < 0).Page;
    }

    /// <summary>One visit; false where the answer was an error. A tap opens today's page first, which is not timed, and is timed by the given clock from its start.</summary>
    public async Task<bool> VisitAsync(string page, Random random, Action restartClock)
    {
        int number = WithLink(random.Next(_candidates));
        HttpClient client = _clients[random.Next(_clients.Length)];
        string token = Filling.TokenOf(number).Page;
        switch (page)
        {
            case "list":
                return await GetAsync(client, "/");
            case "list, by name":
                return await GetAsync(client, "/?name=linnet&page=2");
            case "case":
                return await GetAsync(client, "/case/" + Filling.KeyOf(number));
            case "kept":
                return await GetAsync(client, $"/case/{Filling.KeyOf(number)}/kept");
            case "today":
                return await GetAsync(client, "/me/" + token);
            case "feed":
                return await GetAsync(client, $"/feed/{Filling.TokenOf(number).Feed}.ics");
            default:
                string html = await client.GetStringAsync(new Uri("/me/" + token, UriKind.Relative));
                if (BlockForm().Match(html) is not { Success: true } form)
                {
                    // Nothing to tap today: look at the page instead, which was just done.
                    return true;
                }

                restartClock();
                using (FormUrlEncodedContent fields = new([
                    new("__RequestVerificationToken", Value(form.Value, "__RequestVerificationToken")),
                    new("block", Value(form.Value, "block")),
                    new("start", WebUtility.HtmlDecode(Value(form.Value, "start"))),
                    new("outcome", "done"),
                ]))
                {
                    using HttpResponseMessage answer = await client.PostAsync(new Uri($"/me/{token}/study", UriKind.Relative), fields);
                    return answer.StatusCode == HttpStatusCode.SeeOther && answer.Headers.Location?.ToString().Contains("did=", StringComparison.Ordinal) == true;
                }
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        foreach (HttpClient client in _clients)
        {
            client.Dispose();
        }
    }

    // Every tenth has no link.
    private static int WithLink(int number) => number % 10 == 9 ? number - 1 : number;

    private static async Task<bool> GetAsync(HttpClient client, string path)
    {
        using HttpResponseMessage answer = await client.GetAsync(new Uri(path, UriKind.Relative), HttpCompletionOption.ResponseHeadersRead);
        await answer.Content.LoadIntoBufferAsync();
        return answer.StatusCode == HttpStatusCode.OK;
    }

    private static SocketsHttpHandler Handler(byte last) => new()
    {
        AllowAutoRedirect = false,
        AutomaticDecompression = DecompressionMethods.All,
        CookieContainer = new CookieContainer(),
        ConnectCallback = async (context, cancellation) =>
        {
            Socket socket = new(AddressFamily.InterNetwork, SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
            try
            {
                socket.Bind(new IPEndPoint(new IPAddress([127, 0, 0, last]), 0));
                await socket.ConnectAsync(IPAddress.Loopback, context.DnsEndPoint.Port, cancellation);
                return new NetworkStream(socket, ownsSocket: true);
            }
            catch
            {
                socket.Dispose();
                throw;
            }
        },
    };

    private static string Value(string form, string field) => Regex.Match(form, $"name=\"{field}\" value=\"([^\"]*)\"").Groups[1].Value;

    [GeneratedRegex("<form method=\"post\" action=\"/me/[^\"]+/study\"[^>]*>.*?</form>", RegexOptions.Singleline)]
    private static partial Regex BlockForm();
}
