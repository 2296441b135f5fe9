using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Files.Sheets;

using NodaTime;

namespace Homestretch.Files.Evidences;

/// <summary>Reads evidence from CSV files: answers item by item, counts by topic, and official score reports.</summary>
/// <remarks>The headers, values and errors are described in docs/evidence-file.md.</remarks>
public static class EvidenceFile
{
    /// <summary>More items in one row are taken for a slip.</summary>
    public const int MostItems = 5000;

    /// <summary>More seconds for one item are taken for a slip: one day.</summary>
    public const int MostSeconds = 86400;

    // Below this a bare number is more likely a step on somebody's own scale than a percentage.
    private const decimal LeastBareSureness = 5;

    private static readonly Dictionary<string, bool> Answers = new(StringComparer.OrdinalIgnoreCase)
    {
        ["1"] = true,
        ["yes"] = true,
        ["y"] = true,
        ["true"] = true,
        ["t"] = true,
        ["right"] = true,
        ["correct"] = true,
        ["✓"] = true,
        ["✔"] = true,
        ["0"] = false,
        ["no"] = false,
        ["n"] = false,
        ["false"] = false,
        ["f"] = false,
        ["wrong"] = false,
        ["incorrect"] = false,
        ["✗"] = false,
        ["✘"] = false,
        ["omitted"] = false,
        ["skipped"] = false,
    };

    private static readonly HashSet<string> Blanks = new(StringComparer.OrdinalIgnoreCase) { "omitted", "skipped" };

    private static readonly Dictionary<string, double> SureWords = new(StringComparer.OrdinalIgnoreCase)
    {
        ["guess"] = 0,
        ["guessed"] = 0,
        ["unsure"] = 1.0 / 3,
        ["sure"] = 2.0 / 3,
        ["certain"] = 1,
    };

    /// <summary>Takes evidence files apart into cells and puts them together.</summary>
    public static SheetCells Cells { get; } = SheetCells.Of(EvidenceColumns.All);

    /// <summary>Reads one file.</summary>
    /// <param name="path">The file as the person named it.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<EvidenceSheet> Read(string path, Exam exam) => ReadAll([path], exam);

    /// <summary>Reads several files as if they were one: rows of the same candidate and attempt come together, contradictions between files are problems.</summary>
    /// <param name="paths">At least one file.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<EvidenceSheet> ReadAll(IReadOnlyList<string> paths, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ProblemList problems = new();
        return ParseAll(SheetReader.Open(paths, problems), exam, problems);
    }

    /// <summary>Reads one file that is in memory.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">The file, in any encoding that spreadsheets write.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<EvidenceSheet> Parse(string fileName, ReadOnlyMemory<byte> bytes, Exam exam) => ParseAll([(fileName, bytes)], exam);

    /// <summary>Reads several files that are in memory as if they were one.</summary>
    /// <param name="files">Names used in messages, and contents; at least one.</param>
    /// <param name="exam">The exam whose topics the rows name.</param>
    public static ReadResult<EvidenceSheet> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam)
        => ParseAll(files, exam, new ProblemList());

    private static ReadResult<EvidenceSheet> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, ProblemList problems)
    {
        ArgumentNullException.ThrowIfNull(exam);
        TopicNames names = new(exam);
        EvidenceCollector collector = new(problems);
        double guess = exam.MeanGuessChance;
        SheetReader.ReadAll(files, EvidenceColumns.All, problems, row => ParseRow(row, names, guess, collector));
        return problems.IsEmpty ? ReadResult<EvidenceSheet>.Ok(new EvidenceSheet(collector.Attempts())) : ReadResult<EvidenceSheet>.Failed(problems.InOrder());
    }

    private static void ParseRow(SheetRow<EvidenceColumn> row, TopicNames names, double guess, EvidenceCollector collector)
    {
        string? candidate = row.Needed(EvidenceColumn.Candidate, "write the person's name in every row");
        string? attempt = row.Needed(EvidenceColumn.Attempt, "give each test a name of its own, such as 'first diagnostic'");

        AttemptKind? kind = null;
        string kindText = row[EvidenceColumn.Kind];
        if (KindNames.TryFind(kindText, out AttemptKind found))
        {
            kind = found;
        }
        else
        {
            row.Refuse($"column 'kind': {Quoted(kindText)} is not a kind of test; write diagnostic, quiz, practice exam or official." + row.Short);
        }

        LocalDate? date = row.Date(EvidenceColumn.Date, "the test");
        (ExamTopic Topic, Subtopic? Subtopic)? topic = names.Find(row, EvidenceColumn.Topic, EvidenceColumn.Subtopic);
        Observation? observation = ParseObservation(row, topic, kind);
        if (candidate is not null && attempt is not null)
        {
            collector.Add(row.Place, candidate, attempt, kind, date, observation);
        }

        string against = row[EvidenceColumn.AgainstExam];
        if (against.Length > 0 && AgainstExam.Parse(against, guess, row.Refuse) is { } form && attempt is not null)
        {
            collector.AddForm(row.Place, attempt, against, form);
        }
    }

    private static Observation? ParseObservation(SheetRow<EvidenceColumn> row, (ExamTopic Topic, Subtopic? Subtopic)? topic, AttemptKind? kind)
    {
        string item = row[EvidenceColumn.Item];
        string correct = row[EvidenceColumn.Correct];
        string items = row[EvidenceColumn.Items];
        string percent = row[EvidenceColumn.Percent];
        string band = row[EvidenceColumn.Band];
        string seconds = row[EvidenceColumn.Seconds];
        string sure = row[EvidenceColumn.Sure];

        if (item.Length > 0)
        {
            foreach ((string value, EvidenceColumn column) in new[] { (items, EvidenceColumn.Items), (percent, EvidenceColumn.Percent), (band, EvidenceColumn.Band) })
            {
                if (value.Length > 0)
                {
                    row.Refuse($"column '{EvidenceColumns.All.NameOf(column)}': '{Cell.Show(value)}' does not belong in a row about one item ('{Cell.Show(item)}'); leave it empty, or leave 'item' empty.");
                    return null;
                }
            }

            ItemAnswerText answer = new(correct, row[EvidenceColumn.Chosen], row[EvidenceColumn.Key], row.Header.Has(EvidenceColumn.Chosen));
            return ParseItem(item, answer, seconds, sure, topic, row.Short, row.Refuse);
        }

        foreach (EvidenceColumn column in (ReadOnlySpan<EvidenceColumn>)[EvidenceColumn.Seconds, EvidenceColumn.Sure, EvidenceColumn.Chosen, EvidenceColumn.Key])
        {
            if (row[column] is { Length: > 0 } value)
            {
                row.Refuse($"column '{EvidenceColumns.All.NameOf(column)}': '{Cell.Show(value)}' belongs only in a row about one item; leave it empty, or name the item.");
                return null;
            }
        }

        if (percent.Length > 0 || band.Length > 0)
        {
            if (percent.Length > 0 && band.Length > 0)
            {
                row.Refuse($"columns 'percent' and 'band' are both filled ('{Cell.Show(percent)}' and '{Cell.Show(band)}'); keep one.");
                return null;
            }

            if (correct.Length > 0)
            {
                row.Refuse($"column 'correct': '{Cell.Show(correct)}' stands beside a percentage; keep one of them.");
                return null;
            }

            return ParseReport(percent, band, items, topic, kind, row.Refuse);
        }

        return ParseCount(correct, items, topic, row.Short, row.Refuse);
    }

    private static ItemResponse? ParseItem(
        string item, ItemAnswerText answer, string secondsText, string sureText, (ExamTopic Topic, Subtopic? Subtopic)? topic, string shortRow, Action<string> problem)
    {
        (bool Right, bool Blank)? read = ParseAnswer(item, answer, shortRow, problem);
        bool good = read is not null;
        double? seconds = null;
        if (secondsText.Length > 0)
        {
            if (Cell.TryNumber(secondsText, out decimal s) && s > 0 && s <= MostSeconds)
            {
                seconds = (double)s;
            }
            else
            {
                problem($"column 'seconds': {Cell.NotNumber(secondsText)} write a number above 0 and up to {MostSeconds}, or leave it empty.");
                good = false;
            }
        }

        double? sureness = ParseSure(sureText, problem, ref good);
        return good && topic is { } t
            ? new ItemResponse(t.Topic.Name, t.Subtopic?.Name, item, read!.Value.Right, seconds, sureness)
            {
                Omitted = read.Value.Blank,
                Chosen = answer.Chosen.Length > 0 ? answer.Chosen : null,
                Key = answer.Key.Length > 0 ? answer.Key : null,
            }
            : null;
    }

    // Right or wrong as written, or from the option chosen and the key. Only a file with a column for options may leave both blank: elsewhere
    // an empty cell may as well be a slip.
    private static (bool Right, bool Blank)? ParseAnswer(string item, ItemAnswerText answer, string shortRow, Action<string> problem)
    {
        bool? byKey = answer.Chosen.Length > 0 && answer.Key.Length > 0
            ? string.Equals(answer.Chosen, answer.Key, StringComparison.OrdinalIgnoreCase)
            : null;
        if (answer.Correct.Length == 0)
        {
            if (byKey is { } right)
            {
                return (right, false);
            }

            if (answer.HasOptions && answer.Chosen.Length == 0 && shortRow.Length == 0)
            {
                return (false, true);
            }

            problem(answer.Chosen.Length > 0
                ? $"column 'correct' is empty for item '{Cell.Show(item)}', where '{Cell.Show(answer.Chosen)}' was chosen; write yes or no, or give the right option in column 'key'."
                : $"column 'correct' is empty for item '{Cell.Show(item)}'; write yes or no, also no for an omitted answer.{shortRow}");
            return null;
        }

        if (!Answers.TryGetValue(answer.Correct, out bool correct))
        {
            string hint = answer.Correct is "x" or "X" ? " An x means right to some and wrong to others." : Cell.IsFormula(answer.Correct) ? " It is a formula; save its result." : "";
            problem($"column 'correct': '{Cell.Show(answer.Correct)}' is neither right nor wrong; write yes or no (or 1 or 0, true or false, right or wrong).{hint}");
            return null;
        }

        if (byKey is { } fits && fits != correct)
        {
            problem($"column 'correct': '{Cell.Show(answer.Correct)}' for item '{Cell.Show(item)}', but '{Cell.Show(answer.Chosen)}' was chosen and the key is '{Cell.Show(answer.Key)}'; mend one of the three, or leave 'correct' empty.");
            return null;
        }

        bool blank = Blanks.Contains(answer.Correct);
        if (blank && answer.Chosen.Length > 0)
        {
            problem($"column 'chosen': '{Cell.Show(answer.Chosen)}' stands beside '{Cell.Show(answer.Correct)}'; keep one of them.");
            return null;
        }

        return (correct, blank);
    }

    private static double? ParseSure(string text, Action<string> problem, ref bool good)
    {
        const string Accepted = "write 0 to 100 (percent), or guess, unsure, sure or certain, or leave it empty.";
        if (text.Length == 0)
        {
            return null;
        }

        if (SureWords.TryGetValue(text, out double word))
        {
            return word;
        }

        bool marked = text.EndsWith('%');
        string number = marked ? text[..^1].TrimEnd() : text;
        if (!Cell.TryNumber(number, out decimal percent))
        {
            problem($"column 'sure': {Cell.NotNumber(text)} {Accepted}");
        }
        else if (percent > 100)
        {
            problem($"column 'sure': '{Cell.Show(text)}' is above 100; {Accepted}");
        }
        else if (percent > 0 && percent < LeastBareSureness && !marked)
        {
            problem($"column 'sure': '{Cell.Show(text)}' may be a percentage or a step on another scale; write '{Cell.Show(text)} %' if you mean percent, else one of the words guess, unsure, sure, certain.");
        }
        else
        {
            return (double)percent / 100;
        }

        good = false;
        return null;
    }

    private static TopicCount? ParseCount(string correct, string items, (ExamTopic Topic, Subtopic? Subtopic)? topic, string shortRow, Action<string> problem)
    {
        if (correct.Length == 0 && items.Length == 0)
        {
            problem("The row says nothing about answers; fill item and correct, or correct and items, or percent, or band." + shortRow);
            return null;
        }

        if (items.Length == 0)
        {
            problem(Answers.ContainsKey(correct)
                ? $"column 'correct' is '{Cell.Show(correct)}', but neither 'item' nor 'items' is filled; name the item, or say of how many items this is the count.{shortRow}"
                : $"column 'items' is empty; say of how many items '{Cell.Show(correct)}' were correct.{shortRow}");
            return null;
        }

        int? of = ParseItems(items, problem);
        if (correct.Length == 0)
        {
            problem($"column 'correct' is empty; say how many of the items ('{Cell.Show(items)}') were correct.{shortRow}");
            return null;
        }

        if (!Cell.TryWhole(correct, out int count))
        {
            problem($"column 'correct': {Cell.NotNumber(correct)} write how many items were correct as a whole number.");
            return null;
        }

        if (of is not { } total)
        {
            return null;
        }

        if (count > total)
        {
            problem($"column 'correct': {count} correct of {total} items cannot be; correct must be at most items.");
            return null;
        }

        return topic is { } t ? TopicCount.Exact(t.Topic.Name, count, total, t.Subtopic?.Name) : null;
    }

    private static TopicCount? ParseReport(
        string percent, string band, string itemsText, (ExamTopic Topic, Subtopic? Subtopic)? topic, AttemptKind? kind, Action<string> problem)
    {
        string column = band.Length > 0 ? "band" : "percent";
        string text = band.Length > 0 ? band : percent;
        const string Accepted = "write 0 to 100, such as 57 %, or a band such as 41-60 %";
        PercentFigure? figure = null;
        if (!PercentFigure.TryParse(text, out PercentFigure parsed))
        {
            problem($"column '{column}': {Cell.NotNumber(text)} {Accepted}.");
        }
        else if (parsed.High > 100 || parsed.Low > 100)
        {
            problem($"column '{column}': '{Cell.Show(text)}' is above 100 %; {Accepted}.");
        }
        else if (parsed.Low > parsed.High)
        {
            problem($"column '{column}': '{Cell.Show(text)}' ends below its start; {Accepted}.");
        }
        else if (!parsed.IsBand && parsed.Low is > 0 and < 1 && !text.Contains('%', StringComparison.Ordinal))
        {
            problem($"column '{column}': '{Cell.Show(text)}' would be less than one percent; {Accepted} (57 % is stored as 0.57 in a spreadsheet).");
        }
        else
        {
            figure = parsed;
        }

        int? items = null;
        if (itemsText.Length > 0)
        {
            items = ParseItems(itemsText, problem);
        }
        else if (kind is null || topic is null)
        {
            // One of them is a problem already; whether items may be left out depends on both.
            return null;
        }
        else if (kind != AttemptKind.Official)
        {
            problem($"column 'items' is empty; say of how many items '{Cell.Show(text)}' is the share (only an official report may leave it out).");
        }
        else
        {
            items = topic.Value.Subtopic?.Items ?? topic.Value.Topic.Items;
            if (items == 0)
            {
                problem("column 'items' is empty, and the blueprint gives this topic no items; say how many it had.");
                return null;
            }
        }

        if (figure is not { } f || items is not { } n)
        {
            return null;
        }

        if (f.Counts(n) is not { } counts)
        {
            problem($"column '{column}': no count of {n} items makes '{Cell.Show(text)}'; the nearest are {f.Nearest(n)}.{(itemsText.Length == 0 ? " The number of items is the blueprint's; fill 'items' if the report had another." : "")}");
            return null;
        }

        return topic is { } t ? new TopicCount(t.Topic.Name, t.Subtopic?.Name, counts.Low, counts.High, n) : null;
    }

    private static int? ParseItems(string text, Action<string> problem)
    {
        if (Cell.TryWhole(text, out int items) && items is >= 1 and <= MostItems)
        {
            return items;
        }

        problem($"column 'items': {Cell.NotNumber(text)} write a whole number from 1 to {MostItems}.");
        return null;
    }

    private static string Quoted(string text) => text.Length == 0 ? "an empty cell" : $"'{Cell.Show(text)}'";
}
