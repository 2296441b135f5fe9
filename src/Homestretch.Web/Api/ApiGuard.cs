using System.Text.RegularExpressions;

using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Routing.Template;

namespace Homestretch.Web.Api;

/// <summary>Stands before the interface: refuses what a foreign site in the coach's browser sends, and answers every failure as problem details.</summary>
public static partial class ApiGuard
{
    /// <summary>Whether a path belongs to the interface.</summary>
    public static bool Guards(PathString path) => path.StartsWithSegments(ApiRoutes.Root);

    /// <summary>Adds the guard.</summary>
    public static IApplicationBuilder UseApiGuard(this IApplicationBuilder app)
        => app.Use(async (context, next) =>
        {
            if (!Guards(context.Request.Path))
            {
                await next(context);
                return;
            }

            // The page about problems is for people.
            if (context.Features.Get<IStatusCodePagesFeature>() is { } pages)
            {
                pages.Enabled = false;
            }

            if (Foreign(context.Request) is { } refusal)
            {
                await refusal.ExecuteAsync(context);
                return;
            }

            try
            {
                await next(context);
            }
            catch (BadHttpRequestException e) when (!context.Response.HasStarted)
            {
                if (Unbound().Match(e.Message) is { Success: true } bad)
                {
                    string accepted = bad.Groups[1].Value.Contains("bool", StringComparison.Ordinal) ? "true or false" : "a whole number";
                    await ApiProblem.Of(e.StatusCode, "The address cannot be used as it is.", new ApiError($"{bad.Groups[2].Value} is {accepted}.", Field: bad.Groups[2].Value, Value: bad.Groups[3].Value)).ExecuteAsync(context);
                    return;
                }

                context.Response.StatusCode = e.StatusCode;
            }
            catch (OperationCanceledException) when (context.RequestAborted.IsCancellationRequested && !context.Response.HasStarted)
            {
                context.Response.StatusCode = StatusCodes.Status504GatewayTimeout;
            }
#pragma warning disable CA1031 // The last resort: whatever went wrong, a program gets a document and not a stack trace.
            catch (Exception e) when (!context.Response.HasStarted)
#pragma warning restore CA1031
            {
                Failed(context.RequestServices.GetRequiredService<ILoggerFactory>().CreateLogger(typeof(ApiGuard)), e, context.Request.Path);
                context.Response.StatusCode = StatusCodes.Status500InternalServerError;
            }

            if (context.Response is { HasStarted: false, StatusCode: >= 400, ContentType: null })
            {
                ApiProblem problem = context.Response.StatusCode == StatusCodes.Status415UnsupportedMediaType
                    ? ApiBody.WrongType(context.Request.ContentType, Accepted(context))
                    : ApiProblem.Of(context.Response.StatusCode, Say(context.Response.StatusCode));
                await problem.ExecuteAsync(context);
            }
        });

    // A browser says where a request comes from; programs say nothing. What comes from another site, or from another port of this computer, is refused even where it only reads.
    private static ApiProblem? Foreign(HttpRequest request)
    {
        string own = $"{request.Scheme}://{request.Host}";
        if (request.Headers.Origin.ToString() is { Length: > 0 } origin && !string.Equals(origin, own, StringComparison.OrdinalIgnoreCase))
        {
            return Refused("Origin", origin);
        }

        return request.Headers["Sec-Fetch-Site"].ToString() is { Length: > 0 } site && site is not ("same-origin" or "none") ? Refused("Sec-Fetch-Site", site) : null;
    }

    // The framework turns a wrong media type away before the operation is chosen, so it is looked for again.
    private static IEnumerable<string> Accepted(HttpContext context)
        => context.RequestServices.GetRequiredService<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
            .Where(e => e.Metadata.GetMetadata<ApiExample>() is not null && e.Metadata.GetMetadata<IHttpMethodMetadata>()!.HttpMethods.Contains(context.Request.Method)
                && new TemplateMatcher(TemplateParser.Parse(e.RoutePattern.RawText!), []).TryMatch(context.Request.Path, []))
            .SelectMany(e => e.Metadata.GetMetadata<IAcceptsMetadata>()?.ContentTypes ?? [])
            .Distinct();

    private static ApiProblem Refused(string header, string value)
        => ApiProblem.Of(
            StatusCodes.Status403Forbidden,
            "Pages of other sites may not use this interface. Programs may: they send neither Origin nor Sec-Fetch-Site.",
            new ApiError($"{header} names another site.", Field: header, Value: value));

    private static string Say(int status) => status switch
    {
        StatusCodes.Status404NotFound => "There is nothing at this address; /api lists what there is.",
        StatusCodes.Status405MethodNotAllowed => "This address does not take this method; /api lists what there is.",
        StatusCodes.Status413PayloadTooLarge => ApiBody.TooLarge,
        StatusCodes.Status503ServiceUnavailable or StatusCodes.Status504GatewayTimeout => "This took too long. Nothing has been changed; try again.",
        >= 500 => "The fault is in this program, not in the request. Nothing has been lost.",
        _ => "The request cannot be read.",
    };

    // How the framework says that a part of an address is of another kind.
    [GeneratedRegex("parameter \"(\\S+) (\\w+)\" from \"(.*)\"")]
    private static partial Regex Unbound();

    [LoggerMessage(LogLevel.Error, "{Path} failed.")]
    private static partial void Failed(ILogger logger, Exception exception, PathString path);
}
