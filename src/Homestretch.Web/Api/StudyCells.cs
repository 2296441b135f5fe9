using System.Collections.Immutable;
using System.Text.Json.Serialization;

using Homestretch.Store;

namespace Homestretch.Web.Api;

/// <summary>One study session in the columns of the study log (docs/study-log.md). A cell is text or a number, read as the file's cell would be.</summary>
/// <param name="Candidate">The person; the case's own where left out.</param>
/// <param name="Date">Day, ISO 8601.</param>
/// <param name="Topic">Topic of the exam.</param>
/// <param name="Subtopic">Subtopic; may be left out.</param>
/// <param name="Minutes">Minutes studied, a whole number from 1.</param>
/// <param name="How">How: as in docs/study-log.md.</param>
/// <param name="Block">The block of the plan that this was; may be left out.</param>
/// <param name="Note">Anything else.</param>
public sealed record StudyCells(
    [property: JsonConverter(typeof(CellConverter))] string? Candidate = null,
    [property: JsonConverter(typeof(CellConverter))] string? Date = null,
    [property: JsonConverter(typeof(CellConverter))] string? Topic = null,
    [property: JsonConverter(typeof(CellConverter))] string? Subtopic = null,
    [property: JsonConverter(typeof(CellConverter))] string? Minutes = null,
    [property: JsonConverter(typeof(CellConverter))] string? How = null,
    [property: JsonConverter(typeof(CellConverter))] string? Block = null,
    [property: JsonConverter(typeof(CellConverter))] string? Note = null)
{
    /// <summary>The cells in the order of the file's columns.</summary>
    /// <param name="candidate">The person where none is named.</param>
    public ImmutableArray<string> InOrder(string candidate) => [Candidate ?? candidate, Date ?? "", Topic ?? "", Subtopic ?? "", Minutes ?? "", How ?? "", Block ?? "", Note ?? ""];

    /// <summary>The cells of a kept row; null where a cell is empty.</summary>
    public static StudyCells Of(StudyRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        return new(
            Text(row.Candidate),
            Text(row.Date),
            Text(row.Topic),
            Text(row.Subtopic),
            Text(row.Minutes),
            Text(row.How),
            Text(row.Block),
            Text(row.Note));
    }

    private static string? Text(string cell) => cell.Length == 0 ? null : cell;
}
