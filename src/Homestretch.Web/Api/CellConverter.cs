using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Homestretch.Web.Api;

/// <summary>Reads a cell of a row, which may be text or a number, as the text that a file would have there.</summary>
public sealed class CellConverter : JsonConverter<string>
{
    /// <inheritdoc/>
    public override string? Read(ref Utf8JsonReader reader, Type typeToConvert, JsonSerializerOptions options) => reader.TokenType switch
    {
        JsonTokenType.String => reader.GetString(),
        JsonTokenType.Number => reader.TryGetInt64(out long whole) ? whole.ToString(CultureInfo.InvariantCulture) : Encoding.UTF8.GetString(reader.ValueSpan),
        _ => throw new JsonException("A cell is text or a number."),
    };

    /// <inheritdoc/>
    public override void Write(Utf8JsonWriter writer, string value, JsonSerializerOptions options)
    {
        ArgumentNullException.ThrowIfNull(writer);
        writer.WriteStringValue(value);
    }
}
