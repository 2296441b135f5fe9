using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Words;
using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.WordLists;

/// <summary>Reads and writes lists of words: CSV files with one row for each word.</summary>
/// <remarks>The headers, values and errors are described in docs/words.md.</remarks>
public static class WordFile
{
    /// <summary>Characters of the longest term.</summary>
    public const int LongestTerm = 80;

    /// <summary>Characters of the longest definition: what two of fit on the back of a card.</summary>
    public const int LongestDefinition = 400;

    private const string AnswerForm = "write each answer as a day and knew, partly or not, such as '2026-11-22 partly; 2026-11-24 knew'";

    private static readonly SheetColumns<WordColumn> _columns = new(
        "The first line must hold the names of the columns: term and noted, and topic, definition, coach definition and answers where there are any. They may be separated by comma, semicolon, tab or |.",
        (WordColumn.Term, ["term", "word", "expression"]),
        (WordColumn.Topic, ["topic", "category", "subject"]),
        (WordColumn.Definition, ["definition", "own definition", "meaning"]),
        (WordColumn.CoachDefinition, ["coach definition", "coach's definition", "coach"]),
        (WordColumn.Noted, ["noted", "date", "day"]),
        (WordColumn.Answers, ["answers", "recalls"]))
    {
        Needed = [WordColumn.Term, WordColumn.Noted],
    };

    /// <summary>Takes words files apart into cells and puts them together.</summary>
    public static SheetCells Cells { get; } = SheetCells.Of(_columns);

    /// <summary>Reads several files as if they were one.</summary>
    /// <param name="paths">The files as the person named them.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<WordList> ReadAll(IReadOnlyList<string> paths, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ProblemList problems = new();
        return ParseAll(SheetReader.Open(paths, problems), exam, problems);
    }

    /// <summary>Reads several files that are in memory as if they were one.</summary>
    /// <param name="files">Names used in messages, and contents in any encoding that spreadsheets write.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<WordList> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam)
        => ParseAll(files, exam, new ProblemList());

    /// <summary>The list as a file that reads back as the same list.</summary>
    public static string Write(WordList list)
    {
        ArgumentNullException.ThrowIfNull(list);
        StringBuilder text = new();
        text.AppendJoin(',', _columns.Names).Append('\n');
        foreach (Word word in list.Words)
        {
            string answers = string.Join("; ", word.Answers.Select(a => $"{LocalDatePattern.Iso.Format(a.Day)} {OutcomeNames.Of(a.Outcome)}"));
            string[] fields = [word.Term, word.Topic ?? "", word.OwnDefinition ?? "", word.CoachDefinition ?? "", LocalDatePattern.Iso.Format(word.Noted), answers];
            text.AppendJoin(',', fields.Select(CsvText.Quote)).Append('\n');
        }

        return text.ToString();
    }

    private static ReadResult<WordList> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, ProblemList problems)
    {
        ArgumentNullException.ThrowIfNull(exam);
        TopicNames names = new(exam);
        List<Word> words = [];
        Dictionary<string, RowPlace> seen = new(StringComparer.OrdinalIgnoreCase);
        SheetReader.ReadAll(files, _columns, problems, row =>
        {
            if (ParseRow(row, names) is not { } word)
            {
                return;
            }

            if (!seen.TryAdd(word.Term, row.Place))
            {
                row.Refuse($"column 'term': '{Cell.Show(word.Term)}' stands {seen[word.Term].Seen(row.Place)} already; keep one row with all that is known of it, or tell the two apart in the term.");
                return;
            }

            words.Add(word);
        });
        return problems.IsEmpty ? ReadResult<WordList>.Ok(new WordList([.. words])) : ReadResult<WordList>.Failed(problems.InOrder());
    }

    private static Word? ParseRow(SheetRow<WordColumn> row, TopicNames names)
    {
        string? term = row.Needed(WordColumn.Term, "write the word or the words to learn");
        bool fits = Fits(row, WordColumn.Term, LongestTerm);
        fits &= Fits(row, WordColumn.Definition, LongestDefinition);
        fits &= Fits(row, WordColumn.CoachDefinition, LongestDefinition);
        string? topic = null;
        if (row[WordColumn.Topic] is { Length: > 0 } written)
        {
            if (names.Find(written, "", out string problem) is { } found)
            {
                topic = found.Subtopic is { } part ? $"{found.Topic.Name} / {part.Name}" : found.Topic.Name;
            }
            else
            {
                row.Refuse(problem + " Leave it empty where the word belongs to no topic.");
                fits = false;
            }
        }

        LocalDate? noted = row.Date(WordColumn.Noted, "noting the word");
        ImmutableArray<RecallAnswer>? answers = Answers(row, noted);
        return term is not null && fits && noted is { } day && answers is { } given
            ? new Word(term, day) { Topic = topic, OwnDefinition = row.Optional(WordColumn.Definition), CoachDefinition = row.Optional(WordColumn.CoachDefinition), Answers = given }
            : null;
    }

    private static bool Fits(SheetRow<WordColumn> row, WordColumn column, int longest)
    {
        int length = row[column].Length;
        if (length > longest)
        {
            row.Refuse($"column '{row.Header.Columns.NameOf(column)}': '{Cell.Show(row[column])}' is {length} characters long; at most {longest} fit on a card.");
        }

        return length <= longest;
    }

    private static ImmutableArray<RecallAnswer>? Answers(SheetRow<WordColumn> row, LocalDate? noted)
    {
        List<RecallAnswer> answers = [];
        bool good = true;
        void Refuse(string message)
        {
            row.Refuse($"column 'answers': {message}");
            good = false;
        }

        foreach (string part in row[WordColumn.Answers].Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            string[] pieces = part.Split(' ', 2);
            if (pieces.Length < 2 || OutcomeNames.Find(pieces[1]) is not { } outcome)
            {
                Refuse($"'{Cell.Show(part)}' will not do; {AnswerForm}.");
            }
            else if (SheetDate.Parse(pieces[0], out string problem) is not { } day)
            {
                Refuse(problem);
            }
            else if (day < noted)
            {
                Refuse($"the answer of {LocalDatePattern.Iso.Format(day)} comes before the word was noted, on {LocalDatePattern.Iso.Format(noted.Value)}; check both days.");
            }
            else
            {
                answers.Add(new(day, outcome));
            }
        }

        return good ? [.. answers.OrderBy(a => a.Day)] : null;
    }
}
