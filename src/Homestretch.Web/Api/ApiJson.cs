using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Homestretch.Web.Api;

/// <summary>How JSON is read and written here: camelCase, every field always there, nothing unknown passed over.</summary>
public static class ApiJson
{
    /// <summary>The options.</summary>
    public static JsonSerializerOptions Options { get; } = Made();

    /// <summary>The media type.</summary>
    public const string MediaType = "application/json";

    /// <summary>Sets these options.</summary>
    public static void Set(JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(options);
        options.PropertyNamingPolicy = JsonNamingPolicy.CamelCase;
        options.PropertyNameCaseInsensitive = false;
        options.NumberHandling = JsonNumberHandling.Strict;
        options.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
        options.RespectNullableAnnotations = true;
        options.RespectRequiredConstructorParameters = true;
        options.WriteIndented = true;
        options.NewLine = "\n";

        // Names with accents stay readable; an answer is never a part of a web page.
        options.Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping;
    }

    private static JsonSerializerOptions Made()
    {
        JsonSerializerOptions options = new(JsonSerializerDefaults.Web);
        Set(options);
        return options;
    }
}
