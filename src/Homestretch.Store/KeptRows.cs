using System.Collections.Immutable;
using System.Text;

using Homestretch.Files;
using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;
using Homestretch.Files.StudyLogs;
using Homestretch.Files.WordLists;

using NodaTime;

namespace Homestretch.Store;

/// <summary>Files to rows and back. Cells stay as they were written; what they mean is for the readers of these files to say, every time anew.</summary>
public static class KeptRows
{
    /// <summary>What is kept of a file of a case: rows of evidence and study logs, everything else as it is. The file has been read without a problem.</summary>
    /// <param name="role">What it is for; exams are not kept with a case.</param>
    /// <param name="file">Its name.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="at">When it came.</param>
    public static IReadOnlyList<KeptRow> Of(FileRole role, string file, ReadOnlyMemory<byte> bytes, Instant at) => role switch
    {
        FileRole.Exam => throw new ArgumentOutOfRangeException(nameof(role), role, "An exam's file is a version of the exam."),
        FileRole.Evidence when Evidence(file, bytes, at).Value is { } rows => rows,
        FileRole.StudyLog when Study(file, bytes, at).Value is { } rows => rows,
        _ => [new StoredFile { At = at, Origin = Origin.File, OriginFile = file, Role = role, Name = file, Content = bytes.ToArray() }],
    };

    /// <summary>The rows of an evidence file.</summary>
    /// <param name="file">Its name, for messages and as origin.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="at">When it came.</param>
    /// <returns>The rows, or why it is no evidence file. Values are not judged.</returns>
    public static ReadResult<IReadOnlyList<EvidenceRow>> Evidence(string file, ReadOnlyMemory<byte> bytes, Instant at)
        => Rows(EvidenceFile.Cells, file, bytes, line => Evidence(line.Cells, at, Origin.File, file, line.Line));

    /// <summary>The rows of evidence files, person by person. What one row says of how a test compares with the exam is said in every row of that test, so that it holds
    /// for each person alone as it does for all of them together.</summary>
    /// <param name="files">Names, for messages and as origin, and contents; they have been read together without a problem.</param>
    /// <param name="at">When they came.</param>
    /// <returns>The rows by name, without regard to case, or why one is no evidence file.</returns>
    public static ReadResult<ILookup<string, EvidenceRow>> EvidenceByPerson(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Instant at)
    {
        ArgumentNullException.ThrowIfNull(files);
        int attempt = EvidenceFile.Cells.Columns.IndexOf("attempt");
        int against = EvidenceFile.Cells.Columns.IndexOf("against exam");
        List<FileProblem> problems = [];
        List<(string File, SheetLine Line)> lines = [];
        foreach ((string file, ReadOnlyMemory<byte> bytes) in files)
        {
            ReadResult<SheetRows> split = EvidenceFile.Cells.Split(file, bytes);
            problems.AddRange(split.Problems);
            lines.AddRange(split.Value?.Lines.Select(l => (file, l)) ?? []);
        }

        Dictionary<string, string> said = new(StringComparer.OrdinalIgnoreCase);
        foreach ((_, SheetLine line) in lines.Where(l => l.Line.Cells[against].Length > 0))
        {
            said.TryAdd(line.Cells[attempt], line.Cells[against]);
        }

        return problems.Count > 0
            ? ReadResult<ILookup<string, EvidenceRow>>.Failed(problems)
            : ReadResult<ILookup<string, EvidenceRow>>.Ok(lines
                .Select(l => Evidence(said.TryGetValue(l.Line.Cells[attempt], out string? form) ? l.Line.Cells.SetItem(against, form) : l.Line.Cells, at, Origin.File, l.File, l.Line.Line))
                .ToLookup(r => r.Candidate, StringComparer.OrdinalIgnoreCase));
    }

    /// <summary>The rows of a study log.</summary>
    /// <param name="file">Its name, for messages and as origin.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="at">When it came.</param>
    /// <returns>The rows, or why it is no study log. Values are not judged.</returns>
    public static ReadResult<IReadOnlyList<StudyRow>> Study(string file, ReadOnlyMemory<byte> bytes, Instant at)
        => Rows(StudyLogFile.Cells, file, bytes, line => new StudyRow
        {
            At = at,
            Origin = Origin.File,
            OriginFile = file,
            OriginLine = line.Line,
            Outcome = StudyOutcome.Done,
            Candidate = line.Cells[0],
            Date = line.Cells[1],
            Topic = line.Cells[2],
            Subtopic = line.Cells[3],
            Minutes = line.Cells[4],
            How = line.Cells[5],
            Block = line.Cells[6],
            Note = line.Cells[7],
        });

    /// <summary>The words of a words file, and the recalls in it.</summary>
    /// <param name="file">Its name, for messages and as origin.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="at">When it came.</param>
    /// <returns>The rows, words first, or why it is no words file. Values are not judged.</returns>
    public static ReadResult<IReadOnlyList<KeptRow>> Words(string file, ReadOnlyMemory<byte> bytes, Instant at)
    {
        ReadResult<SheetRows> split = WordFile.Cells.Split(file, bytes);
        if (split.Value is not { } rows)
        {
            return ReadResult<IReadOnlyList<KeptRow>>.Failed(split.Problems);
        }

        return ReadResult<IReadOnlyList<KeptRow>>.Ok(
        [
            .. rows.Lines.Select(l => new WordRow
            {
                At = at,
                Origin = Origin.File,
                OriginFile = file,
                OriginLine = l.Line,
                Term = l.Cells[0],
                Topic = l.Cells[1],
                Definition = l.Cells[2],
                CoachDefinition = l.Cells[3],
                Noted = l.Cells[4],
            }),
            .. rows.Lines.SelectMany(l => l.Cells[5].Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(answer =>
            {
                string[] parts = answer.Split(' ', 2, StringSplitOptions.TrimEntries);
                return new RecallRow { At = at, Origin = Origin.File, OriginFile = file, OriginLine = l.Line, Term = l.Cells[0], Date = parts[0], Outcome = parts.Length > 1 ? parts[1] : "" };
            })),
        ]);
    }

    /// <summary>A words file of rows that count: of each term the latest row, in the order in which the terms came, with its recalls.</summary>
    public static byte[] WordText(IEnumerable<WordRow> words, IEnumerable<RecallRow> recalls)
    {
        ILookup<string, RecallRow> answers = recalls.ToLookup(r => r.Term, StringComparer.OrdinalIgnoreCase);
        return Encoding.UTF8.GetBytes(WordFile.Cells.Write(words.GroupBy(w => w.Term, StringComparer.OrdinalIgnoreCase).Select(g => g.Last()).Select(w => (IReadOnlyList<string>)
            [w.Term, w.Topic, w.Definition, w.CoachDefinition, w.Noted, string.Join("; ", answers[w.Term].Select(a => $"{a.Date} {a.Outcome}".TrimEnd()))])));
    }

    /// <summary>An evidence file of rows.</summary>
    public static byte[] EvidenceText(IEnumerable<EvidenceRow> rows) => Encoding.UTF8.GetBytes(EvidenceFile.Cells.Write(rows.Select(r => (IReadOnlyList<string>)r.Cells)));

    /// <summary>A study log of the rows that tell of study; a missed session is none.</summary>
    public static byte[] StudyText(IEnumerable<StudyRow> rows)
        => Encoding.UTF8.GetBytes(StudyLogFile.Cells.Write(rows.Where(r => r.Outcome != StudyOutcome.Missed).Select(r => (IReadOnlyList<string>)r.Cells)));

    /// <summary>A file of other people's results without the rows of one of them; the same bytes where it has none, and null where nothing would be left.</summary>
    /// <param name="file">Its name.</param>
    /// <param name="bytes">The file.</param>
    /// <param name="candidate">Whose rows go.</param>
    internal static byte[]? Without(string file, byte[] bytes, string candidate)
    {
        if (EvidenceFile.Cells.Split(file, bytes).Value is not { } rows)
        {
            return bytes;
        }

        SheetLine[] others = [.. rows.Lines.Where(l => !string.Equals(l.Cells[0], candidate, StringComparison.OrdinalIgnoreCase))];
        return others.Length == rows.Lines.Length ? bytes
            : others.Length == 0 ? null
            : Encoding.UTF8.GetBytes(EvidenceFile.Cells.Write(others.Select(l => (IReadOnlyList<string>)l.Cells)));
    }

    private static EvidenceRow Evidence(ImmutableArray<string> cells, Instant at, Origin origin, string? file, int? line) => new()
    {
        At = at,
        Origin = origin,
        OriginFile = file,
        OriginLine = line,
        Candidate = cells[0],
        Attempt = cells[1],
        Kind = cells[2],
        Date = cells[3],
        Topic = cells[4],
        Subtopic = cells[5],
        Item = cells[6],
        Correct = cells[7],
        Seconds = cells[8],
        Sure = cells[9],
        Items = cells[10],
        Percent = cells[11],
        Band = cells[12],
        Note = cells[13],
        Chosen = cells[14],
        Key = cells[15],
        AgainstExam = cells[16],
    };

    private static ReadResult<IReadOnlyList<T>> Rows<T>(SheetCells sheet, string file, ReadOnlyMemory<byte> bytes, Func<SheetLine, T> row)
    {
        ReadResult<SheetRows> split = sheet.Split(file, bytes);
        return split.Value is { } rows
            ? ReadResult<IReadOnlyList<T>>.Ok([.. rows.Lines.Select(row)])
            : ReadResult<IReadOnlyList<T>>.Failed(split.Problems);
    }
}
