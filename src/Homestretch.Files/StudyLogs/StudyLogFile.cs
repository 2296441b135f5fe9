using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;

using NodaTime;

namespace Homestretch.Files.StudyLogs;

/// <summary>Reads study logs: CSV files with one row for each session that was done.</summary>
/// <remarks>The headers, values and errors are described in docs/study-log.md.</remarks>
public static class StudyLogFile
{
    /// <summary>More minutes in one day are taken for a slip.</summary>
    public const int MostMinutesInDay = 16 * 60;

    private static readonly SheetColumns<StudyLogColumn> _columns = new(
        "The first line must hold the names of the columns: candidate, date, topic, minutes and how. They may be separated by comma, semicolon, tab or |.",
        (StudyLogColumn.Candidate, ["candidate", "name", "person"]),
        (StudyLogColumn.Date, ["date", "day"]),
        (StudyLogColumn.Topic, ["topic", "category", "subject"]),
        (StudyLogColumn.Subtopic, ["subtopic", "sub topic", "subcategory"]),
        (StudyLogColumn.Minutes, ["minutes", "min", "mins"]),
        (StudyLogColumn.How, ["how", "kind", "type"]),
        (StudyLogColumn.Block, ["block", "planned block"]),
        (StudyLogColumn.Note, ["note", "notes", "comment", "comments", "remark", "remarks"]))
    {
        Needed = [StudyLogColumn.Candidate, StudyLogColumn.Date, StudyLogColumn.Topic, StudyLogColumn.Minutes, StudyLogColumn.How],
        Unread = StudyLogColumn.Note,
    };

    /// <summary>Takes study logs apart into cells and puts them together.</summary>
    public static SheetCells Cells { get; } = SheetCells.Of(_columns);

    /// <summary>Reads several files as if they were one.</summary>
    /// <param name="paths">The files as the person named them.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<StudyLog> ReadAll(IReadOnlyList<string> paths, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ProblemList problems = new();
        return ParseAll(SheetReader.Open(paths, problems), exam, problems);
    }

    /// <summary>Reads several files that are in memory as if they were one.</summary>
    /// <param name="files">Names used in messages, and contents in any encoding that spreadsheets write.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<StudyLog> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam)
        => ParseAll(files, exam, new ProblemList());

    /// <summary>The day and the minutes in two cells, without a word about cells that hold something else: null, and 0.</summary>
    public static (LocalDate? Day, int Minutes) DayAndMinutes(string date, string minutes)
    {
        ArgumentNullException.ThrowIfNull(date);
        ArgumentNullException.ThrowIfNull(minutes);
        return (SheetDate.Parse(date, out _), Cell.TryWhole(minutes, out int whole) ? whole : 0);
    }

    private static ReadResult<StudyLog> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, ProblemList problems)
    {
        ArgumentNullException.ThrowIfNull(exam);
        TopicNames names = new(exam);
        List<LoggedSession> sessions = [];
        Dictionary<string, string> spellings = new(StringComparer.OrdinalIgnoreCase);
        Dictionary<(string Candidate, LocalDate Date), int> minutes = [];
        Dictionary<(StudySession Session, string Note), RowPlace> seen = [];
        SheetReader.ReadAll(files, _columns, problems, row =>
        {
            if (ParseRow(row, names) is not { } read)
            {
                return;
            }

            spellings.TryAdd(read.Candidate, read.Candidate);
            StudySession session = read with { Candidate = spellings[read.Candidate] };
            // Two sessions of one day may look alike in a file, but in two files they are more likely one session told twice.
            (StudySession, string) whole = (session, row[StudyLogColumn.Note].ToUpperInvariant());
            seen.TryAdd(whole, row.Place);
            if (seen[whole] is var first && first.File != row.Place.File)
            {
                row.Refuse($"The same session stands {first.Seen(row.Place)} already and would count twice; leave one out, or tell them apart in column 'note' if there were two.");
                return;
            }

            int before = minutes.GetValueOrDefault((session.Candidate, session.Date));
            int day = minutes[(session.Candidate, session.Date)] = before + session.Minutes;
            if (day > MostMinutesInDay && before <= MostMinutesInDay)
            {
                row.Refuse($"column 'minutes': with this row {Cell.Show(session.Candidate)} has studied {day} minutes on {session.Date:uuuu-MM-dd}; more than {MostMinutesInDay} in one day cannot be meant.");
            }

            sessions.Add(new LoggedSession(session, row.Place.File, row.Place.Line));
        });
        return problems.IsEmpty ? ReadResult<StudyLog>.Ok(new StudyLog([.. sessions])) : ReadResult<StudyLog>.Failed(problems.InOrder());
    }

    private static StudySession? ParseRow(SheetRow<StudyLogColumn> row, TopicNames names)
    {
        string? candidate = row.Needed(StudyLogColumn.Candidate, "write the person's name in every row");
        LocalDate? date = row.Date(StudyLogColumn.Date, "the session");
        ExamTopic? topic = names.Find(row, StudyLogColumn.Topic, StudyLogColumn.Subtopic)?.Topic;
        int? minutes = Minutes(row);
        StudyKind? kind = Kind(row);
        string block = row[StudyLogColumn.Block];
        return candidate is not null && date is { } day && topic is not null && minutes is { } length && kind is { } how
            ? new StudySession(candidate, topic.Name, day, length, how) { Block = block.Length > 0 ? block.ToLowerInvariant() : null }
            : null;
    }

    private static int? Minutes(SheetRow<StudyLogColumn> row)
    {
        string accepted = $"write the minutes of study as a whole number from 1 to {MostMinutesInDay}";
        if (row.Needed(StudyLogColumn.Minutes, accepted) is not { } text)
        {
            return null;
        }

        if (Cell.TryWhole(text, out int minutes) && minutes is >= 1 and <= MostMinutesInDay)
        {
            return minutes;
        }

        row.Refuse($"column 'minutes': {Cell.NotNumber(text)} {accepted}.{(minutes == 0 && text.Trim('0', '.', ',').Length == 0 ? " Leave out a session that did not take place." : "")}");
        return null;
    }

    private static StudyKind? Kind(SheetRow<StudyLogColumn> row)
    {
        if (row.Needed(StudyLogColumn.How, StudyKindNames.Accepted) is not { } text)
        {
            return null;
        }

        if (StudyKindNames.TryFind(text, out StudyKind kind))
        {
            return kind;
        }

        string hint = StudyKindNames.Nearest(text) is { } near ? $" Did you mean '{near}'?" : "";
        row.Refuse($"column 'how': '{Cell.Show(text)}' is no way to study; {StudyKindNames.Accepted}.{hint}");
        return null;
    }
}
