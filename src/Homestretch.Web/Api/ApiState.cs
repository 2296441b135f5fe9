using System.Globalization;

using Homestretch.Store;

namespace Homestretch.Web.Api;

/// <summary>Names the state of a case (ETag), so that a program does not overwrite what it has not seen.</summary>
public static class ApiState
{
    /// <summary>Sets the state of an answer; 404 where there is no such case, 304 where the program has it already (null for neither).</summary>
    public static async Task<IResult?> SeenAsync(HttpContext context, CaseStore store, string key)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(store);
        if (await store.VersionAsync(key, context.RequestAborted) is not { } version)
        {
            return ApiProblem.NoCase(key);
        }

        string tag = Tag(version);
        context.Response.Headers.ETag = tag;
        return context.Request.Headers.IfNoneMatch.Contains(tag) ? Results.StatusCode(StatusCodes.Status304NotModified) : null;
    }

    /// <summary>The problem where a request names a state (If-Match) that is not the present one, or there is no such case.</summary>
    public static async Task<ApiProblem?> ChangedAsync(HttpContext context, CaseStore store, string key)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(store);
        if (await store.VersionAsync(key, context.RequestAborted) is not { } version)
        {
            return ApiProblem.NoCase(key);
        }

        return context.Request.Headers.IfMatch is { Count: > 0 } wanted && !wanted.Contains("*") && !wanted.Contains(Tag(version))
            ? ApiProblem.Of(
                StatusCodes.Status412PreconditionFailed,
                "The case has been changed since. Read it again, then decide.",
                new ApiError($"The state is {Tag(version)} now.", Field: "If-Match", Value: wanted.ToString()))
            : null;
    }

    private static string Tag(CaseVersion version) => string.Create(CultureInfo.InvariantCulture, $"\"{version.Changes}-{version.ExamVersion}-{version.Resources}\"");
}
