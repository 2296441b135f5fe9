namespace Homestretch.Web.Hosting;

/// <summary>Headers that keep a page to its own files: no script or style but ours, no frame, no address leaking out.</summary>
public static class SecurityHeaders
{
    /// <summary>The content security policy of every page.</summary>
    public const string Policy =
        "default-src 'self'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; object-src 'none'; "
        + "base-uri 'self'; frame-ancestors 'none'; form-action 'self'";

    /// <summary>Adds the headers to every answer.</summary>
    public static IApplicationBuilder UseSecurityHeaders(this IApplicationBuilder app)
        => app.Use((context, next) =>
        {
            context.Response.OnStarting(() =>
            {
                IHeaderDictionary headers = context.Response.Headers;

                // A handout sets its own, still stricter policy; the candidates' pages name no address at all to other sites.
                headers.TryAdd("Content-Security-Policy", Policy);
                headers["X-Content-Type-Options"] = "nosniff";
                headers.TryAdd("Referrer-Policy", "same-origin");
                headers["Permissions-Policy"] = "camera=(), microphone=(), geolocation=()";
                headers["Cross-Origin-Opener-Policy"] = "same-origin";
                headers["Cross-Origin-Resource-Policy"] = "same-origin";

                // Pages hold a person's results; only files that name their version may be kept.
                headers.TryAdd("Cache-Control", "no-store");
                return Task.CompletedTask;
            });
            return next(context);
        });
}
