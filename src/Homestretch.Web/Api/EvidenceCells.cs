using System.Collections.Immutable;
using System.Text.Json.Serialization;

using Homestretch.Store;

namespace Homestretch.Web.Api;

/// <summary>One row of evidence in the columns of the evidence file (docs/evidence-file.md). A cell is text or a number, read as the file's cell would be.</summary>
/// <param name="Candidate">The person; the case's own where left out.</param>
/// <param name="Attempt">Name of the sitting; rows of one sitting share it.</param>
/// <param name="Kind"><c>diagnostic</c>, <c>quiz</c>, <c>practice exam</c> or <c>official</c>.</param>
/// <param name="Date">Day of the sitting, ISO 8601.</param>
/// <param name="Topic">Topic of the exam.</param>
/// <param name="Subtopic">Subtopic; may be left out.</param>
/// <param name="Item">Name of the item, for answers item by item.</param>
/// <param name="Correct">For an item whether it was right; for counts how many were, a whole number from 0.</param>
/// <param name="Seconds">Seconds the answer took.</param>
/// <param name="Sure">How sure the person was.</param>
/// <param name="Items">Items on the topic, a whole number from 1.</param>
/// <param name="Percent">Percent right, 0 to 100, as a score report gives it.</param>
/// <param name="Band">Band of a score report.</param>
/// <param name="Note">Anything else.</param>
/// <param name="Chosen">The option chosen.</param>
/// <param name="Key">The right option.</param>
/// <param name="AgainstExam">What a score on this test is worth on the exam (docs/evidence-file.md).</param>
public sealed record EvidenceCells(
    [property: JsonConverter(typeof(CellConverter))] string? Candidate = null,
    [property: JsonConverter(typeof(CellConverter))] string? Attempt = null,
    [property: JsonConverter(typeof(CellConverter))] string? Kind = null,
    [property: JsonConverter(typeof(CellConverter))] string? Date = null,
    [property: JsonConverter(typeof(CellConverter))] string? Topic = null,
    [property: JsonConverter(typeof(CellConverter))] string? Subtopic = null,
    [property: JsonConverter(typeof(CellConverter))] string? Item = null,
    [property: JsonConverter(typeof(CellConverter))] string? Correct = null,
    [property: JsonConverter(typeof(CellConverter))] string? Seconds = null,
    [property: JsonConverter(typeof(CellConverter))] string? Sure = null,
    [property: JsonConverter(typeof(CellConverter))] string? Items = null,
    [property: JsonConverter(typeof(CellConverter))] string? Percent = null,
    [property: JsonConverter(typeof(CellConverter))] string? Band = null,
    [property: JsonConverter(typeof(CellConverter))] string? Note = null,
    [property: JsonConverter(typeof(CellConverter))] string? Chosen = null,
    [property: JsonConverter(typeof(CellConverter))] string? Key = null,
    [property: JsonConverter(typeof(CellConverter))] string? AgainstExam = null)
{
    /// <summary>The cells in the order of the file's columns.</summary>
    /// <param name="candidate">The person where none is named.</param>
    public ImmutableArray<string> InOrder(string candidate) => [Candidate ?? candidate, Attempt ?? "", Kind ?? "", Date ?? "", Topic ?? "", Subtopic ?? "", Item ?? "", Correct ?? "", Seconds ?? "", Sure ?? "", Items ?? "", Percent ?? "", Band ?? "", Note ?? "", Chosen ?? "", Key ?? "", AgainstExam ?? ""];

    /// <summary>The cells of a kept row; null where a cell is empty.</summary>
    public static EvidenceCells Of(EvidenceRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return new(
            Text(row.Candidate),
            Text(row.Attempt),
            Text(row.Kind),
            Text(row.Date),
            Text(row.Topic),
            Text(row.Subtopic),
            Text(row.Item),
            Text(row.Correct),
            Text(row.Seconds),
            Text(row.Sure),
            Text(row.Items),
            Text(row.Percent),
            Text(row.Band),
            Text(row.Note),
            Text(row.Chosen),
            Text(row.Key),
            Text(row.AgainstExam));
    }

    private static string? Text(string cell) => cell.Length == 0 ? null : cell;
}
