using System.Buffers;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;

namespace Homestretch.Files.Documents;

/// <summary>Writes documents as JSON.</summary>
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
[JsonSerializable(typeof(ExamDocument))]
[JsonSerializable(typeof(StandingDocument))]
[JsonSerializable(typeof(ForecastDocument))]
[JsonSerializable(typeof(PlanDocument))]
[JsonSerializable(typeof(DiagnosticDocument))]
[JsonSerializable(typeof(SimulationDocument))]
[JsonSerializable(typeof(CalibrationDocument))]
[JsonSerializable(typeof(DateDocument))]
[JsonSerializable(typeof(HoursDocument))]
[JsonSerializable(typeof(AssumptionsDocument))]
[JsonSerializable(typeof(TestValueDocument))]
[JsonSerializable(typeof(ItemsDocument))]
[JsonSerializable(typeof(NextDocument))]
[JsonSerializable(typeof(EquateDocument))]
[JsonSerializable(typeof(MovedDocument))]
[JsonSerializable(typeof(QuizItemsDocument))]
[JsonSerializable(typeof(WordsDocument))]
public sealed partial class DocumentJson : JsonSerializerContext
{
    // Names with accents stay readable. The documents are data for programs, never a part of a web page.
    private static readonly JsonWriterOptions _readable = new() { Indented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The exam document as JSON text.</summary>
    public static string Write(ExamDocument document) => Write(document, Default.ExamDocument);

    /// <summary>The standing document as JSON text.</summary>
    public static string Write(StandingDocument document) => Write(document, Default.StandingDocument);

    /// <summary>The forecast document as JSON text.</summary>
    public static string Write(ForecastDocument document) => Write(document, Default.ForecastDocument);

    /// <summary>The plan document as JSON text.</summary>
    public static string Write(PlanDocument document) => Write(document, Default.PlanDocument);

    /// <summary>A plan document that <see cref="Write(PlanDocument)"/> wrote.</summary>
    /// <exception cref="JsonException">It did not.</exception>
    public static PlanDocument ReadPlan(string text) => JsonSerializer.Deserialize(text, Default.PlanDocument) ?? throw new JsonException("A plan document is an object.");

    /// <summary>The diagnostic document as JSON text.</summary>
    public static string Write(DiagnosticDocument document) => Write(document, Default.DiagnosticDocument);

    /// <summary>The simulation document as JSON text.</summary>
    public static string Write(SimulationDocument document) => Write(document, Default.SimulationDocument);

    /// <summary>The calibration document as JSON text.</summary>
    public static string Write(CalibrationDocument document) => Write(document, Default.CalibrationDocument);

    /// <summary>The comparison of dates as JSON text.</summary>
    public static string Write(DateDocument document) => Write(document, Default.DateDocument);

    /// <summary>The comparison of hours as JSON text.</summary>
    public static string Write(HoursDocument document) => Write(document, Default.HoursDocument);

    /// <summary>The table of assumptions as JSON text.</summary>
    public static string Write(AssumptionsDocument document) => Write(document, Default.AssumptionsDocument);

    /// <summary>The value of a test as JSON text.</summary>
    public static string Write(TestValueDocument document) => Write(document, Default.TestValueDocument);

    /// <summary>The items document as JSON text.</summary>
    public static string Write(ItemsDocument document) => Write(document, Default.ItemsDocument);

    /// <summary>The document of a quick diagnostic's next step as JSON text.</summary>
    public static string Write(NextDocument document) => Write(document, Default.NextDocument);

    /// <summary>The equating document as JSON text.</summary>
    public static string Write(EquateDocument document) => Write(document, Default.EquateDocument);

    /// <summary>What was moved, as JSON text.</summary>
    public static string Write(MovedDocument document) => Write(document, Default.MovedDocument);

    /// <summary>Items to practise on, as JSON text.</summary>
    public static string Write(QuizItemsDocument document) => Write(document, Default.QuizItemsDocument);

    /// <summary>The document of words to practise as JSON text.</summary>
    public static string Write(WordsDocument document) => Write(document, Default.WordsDocument);

    private static string Write<T>(T document, JsonTypeInfo<T> type)
    {
        ArrayBufferWriter<byte> bytes = new();
        using (Utf8JsonWriter writer = new(bytes, _readable))
        {
            JsonSerializer.Serialize(writer, document, type);
        }

        return Encoding.UTF8.GetString(bytes.WrittenSpan);
    }
}
