using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

using Homestretch.Web.Uploads;

namespace Homestretch.Web.Api;

/// <summary>Reads what a request carries. Only media types that a foreign page cannot send without asking first are taken, so that no other site can make a browser change anything here.</summary>
public static partial class ApiBody
{
    /// <summary>A CSV file.</summary>
    public const string Csv = "text/csv";

    /// <summary>An exam file.</summary>
    public const string Yaml = "application/yaml";

    /// <summary>A zip.</summary>
    public const string Zip = "application/zip";

    /// <summary>A spreadsheet.</summary>
    public const string Xlsx = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    /// <summary>The media type of a request, without parameters and in small letters.</summary>
    public static string TypeOf(HttpRequest request)
    {
        ArgumentNullException.ThrowIfNull(request);
        return (request.ContentType ?? "").Split(';')[0].Trim().ToLowerInvariant();
    }

    /// <summary>Whether a request carries one of some media types; the problem where it does not.</summary>
    public static ApiProblem? WrongType(HttpRequest request, params string[] accepted)
        => accepted.Contains(TypeOf(request))
            ? null
            : WrongType(request.ContentType, accepted);

    /// <summary>The problem of a media type that is none of those accepted.</summary>
    public static ApiProblem WrongType(string? given, IEnumerable<string> accepted)
    {
        string types = string.Join(" or ", accepted);
        return ApiProblem.Of(StatusCodes.Status415UnsupportedMediaType, $"The body must be {types}.", new ApiError($"Content-Type must be {types}.", Field: "Content-Type", Value: given ?? ""));
    }

    /// <summary>The JSON body of a request.</summary>
    /// <typeparam name="T">Its shape.</typeparam>
    public static async Task<(T? Value, ApiProblem? Problem)> ReadAsync<T>(HttpContext context)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(context);
        if (WrongType(context.Request, ApiJson.MediaType) is { } wrong)
        {
            return (null, wrong);
        }

        (byte[]? bytes, ApiProblem? problem) = await BytesAsync(context);
        if (bytes is null)
        {
            return (null, problem);
        }

        try
        {
            return JsonSerializer.Deserialize<T>(bytes, ApiJson.Options) is { } value
                ? (value, null)
                : (null, Malformed("", "This is null; an object is expected."));
        }
        catch (JsonException e)
        {
            string pointer = Pointer(e.Path);
            string where = string.Create(CultureInfo.InvariantCulture, $"line {(e.LineNumber ?? 0) + 1}");
            return (null, Missing().Match(e.Message) is { Success: true } missing
                ? Malformed(pointer, $"These are missing here: {missing.Groups[1].Value}.")
                : Malformed(pointer, $"What stands there ({where}) is no JSON, has an unknown name, or is of another kind than /api/v1/openapi.json says."));
        }
    }

    /// <summary>The bytes of a request.</summary>
    public static async Task<(byte[]? Bytes, ApiProblem? Problem)> BytesAsync(HttpContext context)
    {
        ArgumentNullException.ThrowIfNull(context);
        using MemoryStream copy = new();
        byte[] buffer = new byte[81920];
        int read;
        while ((read = await context.Request.Body.ReadAsync(buffer, context.RequestAborted)) > 0)
        {
            copy.Write(buffer, 0, read);
            if (copy.Length > Upload.MostBytes)
            {
                return (null, ApiProblem.Of(StatusCodes.Status413PayloadTooLarge, TooLarge));
            }
        }

        return (copy.ToArray(), null);
    }

    /// <summary>What is said of a body that is too large.</summary>
    public static string TooLarge => string.Create(CultureInfo.InvariantCulture, $"A request may have at most {Upload.MostBytes / (1024 * 1024)} MB.");

    private static ApiProblem Malformed(string pointer, string message)
        => ApiProblem.Of(StatusCodes.Status400BadRequest, "The body cannot be read as it is.", new ApiError(message, At: pointer));

    // $.rows[0].topic as a JSON pointer.
    private static string Pointer(string? path) => (path ?? "$").TrimStart('$').Replace("['", ".", StringComparison.Ordinal).Replace("']", "", StringComparison.Ordinal).Replace('.', '/').Replace("[", "/", StringComparison.Ordinal).Replace("]", "", StringComparison.Ordinal);

    [GeneratedRegex("missing required properties including: (.+?)\\.?$")]
    private static partial Regex Missing();
}
