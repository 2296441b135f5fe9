using System.Globalization;

using Homestretch.Files;

using Microsoft.AspNetCore.WebUtilities;

namespace Homestretch.Web.Api;

/// <summary>Answers with problem details (RFC 9457).</summary>
/// <param name="fields">What they say.</param>
public sealed class ApiProblem(ProblemFields fields) : IResult
{
    /// <summary>The media type.</summary>
    public const string MediaType = "application/problem+json";

    /// <summary>A problem.</summary>
    public static ApiProblem Of(int status, string detail, params IEnumerable<ApiError> errors)
        => new(new(string.Create(CultureInfo.InvariantCulture, $"/api#status-{status}"), ReasonPhrases.GetReasonPhrase(status), status, detail, "", [.. errors]));

    /// <summary>There is no kept case of this key.</summary>
    public static ApiProblem NoCase(string key) => Of(StatusCodes.Status404NotFound, $"There is no case '{Shown(key)}' that is kept and in use.");

    /// <summary>There is no exam of this key.</summary>
    public static ApiProblem NoExam(string key) => Of(StatusCodes.Status404NotFound, $"There is no exam '{Shown(key)}'.");

    /// <summary>What was sent cannot be used as it is.</summary>
    public static ApiProblem Unusable(params IEnumerable<ApiError> errors)
        => Of(StatusCodes.Status422UnprocessableEntity, "Nothing was changed. Mend what is listed and send it again.", errors);

    /// <summary>The problems of files; those of rows sent as JSON with a pointer to the row.</summary>
    /// <param name="problems">The problems.</param>
    /// <param name="rowsAt">Where the rows are in the body.</param>
    public static IEnumerable<ApiError> Errors(IEnumerable<FileProblem> problems, string rowsAt = "/rows")
        => problems.Select(p => p.File == RowText.FileName
            ? new ApiError(p.Message, At: p.Line < 2 ? rowsAt : string.Create(CultureInfo.InvariantCulture, $"{rowsAt}/{p.Line - 2}"))
            : new ApiError(p.Message, p.File, p.Line));

    /// <inheritdoc/>
    public Task ExecuteAsync(HttpContext httpContext)
    {
        ArgumentNullException.ThrowIfNull(httpContext);
        httpContext.Response.StatusCode = fields.Status;
        return httpContext.Response.WriteAsJsonAsync(fields with { Instance = httpContext.Request.Path }, ApiJson.Options, MediaType, CancellationToken.None);
    }

    private static string Shown(string text) => text.Length <= 80 ? text : text[..80] + "…";
}
