using Homestretch.Files.Sheets;

namespace Homestretch.Files.Evidences;

/// <summary>The columns of an evidence file and their names.</summary>
internal static class EvidenceColumns
{
    /// <summary>All of them.</summary>
    public static SheetColumns<EvidenceColumn> All { get; } = new(
        "The first line must hold the names of the columns: candidate, attempt, kind, date, topic, and then item and correct, or correct and items, or percent or band. "
            + "They may be separated by comma, semicolon, tab or |.",
        (EvidenceColumn.Candidate, ["candidate", "name", "person"]),
        (EvidenceColumn.Attempt, ["attempt", "test", "sitting"]),
        (EvidenceColumn.Kind, ["kind", "type"]),
        (EvidenceColumn.Date, ["date", "day"]),
        (EvidenceColumn.Topic, ["topic", "category", "subject"]),
        (EvidenceColumn.Subtopic, ["subtopic", "sub topic", "subcategory"]),
        (EvidenceColumn.Item, ["item", "question", "item no", "question no"]),
        (EvidenceColumn.Correct, ["correct", "right"]),
        (EvidenceColumn.Seconds, ["seconds", "sec", "secs"]),
        (EvidenceColumn.Sure, ["sure", "how sure", "sureness"]),
        (EvidenceColumn.Items, ["items", "questions", "total", "out of"]),
        (EvidenceColumn.Percent, ["percent", "per cent", "percentage", "%"]),
        (EvidenceColumn.Band, ["band", "percent band", "range"]),
        (EvidenceColumn.Note, ["note", "notes", "comment", "comments", "remark", "remarks"]),
        (EvidenceColumn.Chosen, ["chosen", "answer", "response", "option"]),
        (EvidenceColumn.Key, ["key", "answer key", "correct option"]),
        (EvidenceColumn.AgainstExam, ["against exam", "against the exam"]))
    {
        Needed = [EvidenceColumn.Candidate, EvidenceColumn.Attempt, EvidenceColumn.Kind, EvidenceColumn.Date, EvidenceColumn.Topic],
        Unread = EvidenceColumn.Note,
        Lacks = header => header.Has(EvidenceColumn.Correct)
            || (header.Has(EvidenceColumn.Chosen) && header.Has(EvidenceColumn.Key))
            || header.Has(EvidenceColumn.Percent)
            || header.Has(EvidenceColumn.Band)
                ? null
                : "No column says how the answers went: add correct (yes or no for each item, or a count beside items), percent, or band.",
    };
}
