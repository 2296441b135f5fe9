using System.Globalization;
using System.Net;
using System.Threading.RateLimiting;

using Microsoft.AspNetCore.RateLimiting;

namespace Homestretch.Web.Candidates;

/// <summary>Where candidates come in. With <c>--candidates ADDRESS</c> the program listens there too, and answers there with the candidates' pages only, so that the coach's pages can stay on the coach's own
/// computer.</summary>
/// <param name="Address">The address for candidates, such as <c>http://192.168.1.5:5081</c>; null where they come in by the coach's address.</param>
public sealed record CandidateDoor(Uri? Address)
{
    // Enough for a class behind one address that opens its pages at once; far too little to try tokens.
    private const int MostAtOnce = 200;
    private const int MoreEachSecond = 5;

    /// <summary>Reads the option.</summary>
    /// <exception cref="InvalidOperationException">It is no address of a web page.</exception>
    public static CandidateDoor Of(string? asked)
        => string.IsNullOrWhiteSpace(asked) ? new((Uri?)null)
            : Uri.TryCreate(asked, UriKind.Absolute, out Uri? address) && address.Scheme == "http" && address.AbsolutePath == "/" && address.Host.Length > 0
                ? new(address)
                : throw new InvalidOperationException($"--candidates takes this computer's address and a port, such as http://192.168.1.5:5081; '{asked}' is not. For HTTPS, put a server in front of it.");

    /// <summary>Whether an address belongs to the candidates.</summary>
    public static bool IsCandidates(PathString path) => path.StartsWithSegments("/me") || path.StartsWithSegments("/feed");

    /// <summary>The first part of links for candidates.</summary>
    public string Start(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return (Address?.ToString() ?? $"{request.Scheme}://{request.Host}").TrimEnd('/');
    }

    /// <summary>Whether links work on this computer only.</summary>
    public bool IsHereOnly(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        string host = Address?.Host ?? request.Host.Host;
        return host == "localhost" || (IPAddress.TryParse(host, out IPAddress? ip) && IPAddress.IsLoopback(ip));
    }

    /// <summary>Adds the rate limit.</summary>
    public static void AddLimit(RateLimiterOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        options.OnRejected = (context, _) =>
        {
            context.HttpContext.Response.Headers.RetryAfter = (MostAtOnce / MoreEachSecond).ToString(CultureInfo.InvariantCulture);
            return ValueTask.CompletedTask;
        };
        options.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context => IsCandidates(context.Request.Path)
            ? RateLimitPartition.GetTokenBucketLimiter(
                context.Connection.RemoteIpAddress?.ToString() ?? "",
                _ => new TokenBucketRateLimiterOptions
                {
                    TokenLimit = MostAtOnce,
                    TokensPerPeriod = MoreEachSecond,
                    ReplenishmentPeriod = TimeSpan.FromSeconds(1),
                    QueueLimit = 0,
                })
            : RateLimitPartition.GetNoLimiter(""));
    }

    /// <summary>Shuts everything but the candidates' pages on their port, and keeps those out of search engines and of other sites' logs.</summary>
    public IApplicationBuilder Use(IApplicationBuilder app)
        => app.Use((context, next) =>
        {
            bool candidates = IsCandidates(context.Request.Path);
            if (candidates)
            {
                context.Response.OnStarting(() =>
                {
                    context.Response.Headers["X-Robots-Tag"] = "noindex, nofollow";
                    context.Response.Headers["Referrer-Policy"] = "no-referrer";
                    return Task.CompletedTask;
                });
            }
            else if (Address is not null && context.Connection.LocalPort == Address.Port && !IsShared(context.Request.Path))
            {
                context.Response.StatusCode = StatusCodes.Status404NotFound;
                return Task.CompletedTask;
            }

            return next(context);
        });

    // Style, type, script and icon, which hold nothing of anybody.
    private static bool IsShared(PathString path)
        => path.StartsWithSegments("/fonts") || path.StartsWithSegments("/_framework")
            || path.Value is { } text && text.Count(c => c == '/') == 1 && Path.GetExtension(text) is ".css" or ".js" or ".svg";
}
