using System.Security.Cryptography;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Evidences;
using Homestretch.Files.QuizItems.Qti;
using Homestretch.Files.Sheets;

namespace Homestretch.Files.QuizItems;

/// <summary>Reads choice items to practise on: sheets of our own (CSV or .xlsx) and QTI, as single items or content packages. Described in docs/quiz-items.md.</summary>
public static class QuizItemFile
{
    private static readonly QuizItemColumn[] _options =
    [
        QuizItemColumn.OptionA, QuizItemColumn.OptionB, QuizItemColumn.OptionC, QuizItemColumn.OptionD,
        QuizItemColumn.OptionE, QuizItemColumn.OptionF, QuizItemColumn.OptionG, QuizItemColumn.OptionH,
    ];

    private static readonly SheetColumns<QuizItemColumn> _columns = new(
        "The first line must hold the names of the columns: topic, prompt, option a, option b (up to option h), correct and, if you like, item, title, subtopic and explanation.",
        (QuizItemColumn.Item, ["item", "label", "id"]),
        (QuizItemColumn.Title, ["title"]),
        (QuizItemColumn.Topic, ["topic", "category", "subject"]),
        (QuizItemColumn.Subtopic, ["subtopic", "sub topic", "subcategory"]),
        (QuizItemColumn.Prompt, ["prompt", "question"]),
        (QuizItemColumn.OptionA, ["option a", "a"]),
        (QuizItemColumn.OptionB, ["option b", "b"]),
        (QuizItemColumn.OptionC, ["option c", "c"]),
        (QuizItemColumn.OptionD, ["option d", "d"]),
        (QuizItemColumn.OptionE, ["option e", "e"]),
        (QuizItemColumn.OptionF, ["option f", "f"]),
        (QuizItemColumn.OptionG, ["option g", "g"]),
        (QuizItemColumn.OptionH, ["option h", "h"]),
        (QuizItemColumn.Correct, ["correct", "answer", "key"]),
        (QuizItemColumn.Explanation, ["explanation", "rationale"]))
    {
        Needed = [QuizItemColumn.Topic, QuizItemColumn.Prompt, QuizItemColumn.OptionA, QuizItemColumn.OptionB, QuizItemColumn.Correct],
    };

    /// <summary>Reads several files as if they were one.</summary>
    /// <param name="paths">The files as the person named them.</param>
    /// <param name="exam">The exam whose topics the items belong to.</param>
    /// <param name="topic">Topic or subtopic of QTI items of which neither package nor folder tells it; null to leave such items out.</param>
    /// <exception cref="ArgumentException">The exam has no topic of that name.</exception>
    public static ReadResult<QuizItemSet> ReadAll(IReadOnlyList<string> paths, Exam exam, string? topic = null)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ProblemList problems = new();
        return ParseAll(SheetReader.Open(paths, problems), exam, topic, problems);
    }

    /// <summary>Reads several files that are in memory as if they were one.</summary>
    /// <param name="files">Names used in messages, and contents: CSV, .xlsx, a QTI item as XML, or a QTI content package as .zip.</param>
    /// <inheritdoc cref="ReadAll" path="/param"/>
    /// <inheritdoc cref="ReadAll" path="/exception"/>
    public static ReadResult<QuizItemSet> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, string? topic = null)
        => ParseAll(files, exam, topic, new ProblemList());

    /// <summary>What is wrong with a topic's name; null where the exam has such a topic or subtopic.</summary>
    public static string? TopicProblem(Exam exam, string topic) => new TopicNames(exam).Find(Cell.Tidy(topic), "", out string problem) is null ? problem[(problem.IndexOf(':', StringComparison.Ordinal) + 2)..] : null;

    private static ReadResult<QuizItemSet> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, string? topic, ProblemList problems)
    {
        ArgumentNullException.ThrowIfNull(exam);
        TopicNames names = new(exam);
        (ExamTopic Topic, Subtopic? Subtopic)? otherwise = null;
        if (topic is not null && (otherwise = names.Find(Cell.Tidy(topic), "", out string problem)) is null)
        {
            throw new ArgumentException(problem, nameof(topic));
        }

        TopicGuess guess = new(exam, otherwise is { } found ? (found.Topic.Name, found.Subtopic?.Name) : null);
        ItemCollector items = new();
        foreach ((string file, ReadOnlyMemory<byte> bytes) in files)
        {
            if (QtiPackage.Is(bytes))
            {
                QtiPackage.Read(file, bytes, guess.Within(file), items, problems);
            }
            else if (QtiXml.Is(bytes.Span))
            {
                if (QtiXml.Read(file, bytes, problems) is { } root)
                {
                    QtiItem.Read(file, file, root, [], guess, items);
                }
            }
            else
            {
                SheetReader.ReadAll([(file, bytes)], _columns, problems, row => ReadRow(row, names, items));
            }
        }

        return problems.IsEmpty ? ReadResult<QuizItemSet>.Ok(items.Whole()) : ReadResult<QuizItemSet>.Failed(problems.InOrder());
    }

    private static void ReadRow(SheetRow<QuizItemColumn> row, TopicNames names, ItemCollector items)
    {
        (ExamTopic Topic, Subtopic? Subtopic)? topic = names.Find(row, QuizItemColumn.Topic, QuizItemColumn.Subtopic);
        string? prompt = row.Needed(QuizItemColumn.Prompt, "write the question");
        string[] texts = [.. _options.Select(o => row[o])];
        int count = Array.FindLastIndex(texts, t => t.Length > 0) + 1;
        bool sound = true;
        for (int i = 0; i < Math.Max(2, count); i++)
        {
            sound &= row.Needed(_options[i], i < 2 ? "an item has at least two options" : "leave no gap between the options") is not null;
        }

        if (texts[..count].GroupBy(t => t, StringComparer.Ordinal).FirstOrDefault(g => g.Key.Length > 0 && g.Count() > 1) is { } twice)
        {
            row.Refuse($"two options say '{Cell.Show(twice.Key)}'; nobody could tell them apart.");
            sound = false;
        }

        bool[]? correct = Correct(row, count);
        string label = row[QuizItemColumn.Item];
        string id = label.Length > 0 ? label : Label(prompt ?? "", texts[..count]);
        if (items.Find(id) is { } earlier)
        {
            row.Refuse($"{(label.Length > 0 ? $"column 'item': '{Cell.Show(id)}'" : "the same item")} stands {new RowPlace(earlier.File, earlier.Line).Seen(row.Place)} too; each item needs a label of its own.");
            sound = false;
        }

        if (topic is { } found && prompt is not null && sound && correct is not null)
        {
            items.Add(
                new QuizItem(
                    id,
                    row.Optional(QuizItemColumn.Title),
                    found.Topic.Name,
                    found.Subtopic?.Name,
                    QuizText.Of(prompt),
                    [.. texts[..count].Select((t, i) => new QuizOption(Letter(i), QuizText.Of(t), correct[i]))],
                    correct.Count(c => c) > 1,
                    row.Optional(QuizItemColumn.Explanation) is { } why ? QuizText.Of(why) : null,
                    row.Place.File,
                    row.Place.Line),
                []);
        }
    }

    private static bool[]? Correct(SheetRow<QuizItemColumn> row, int count)
    {
        string accepted = $"write the letter of the correct option{(count > 0 ? $" (a to {Letter(Math.Max(1, count - 1))})" : "")}, or several such as 'a, c'";
        if (row.Needed(QuizItemColumn.Correct, accepted) is not { } text)
        {
            return null;
        }

        bool[] correct = new bool[_options.Length];
        foreach (string letter in text.Split([',', ';', '+', '&', '/', ' '], StringSplitOptions.RemoveEmptyEntries))
        {
            int place = letter.Length == 1 ? char.ToLowerInvariant(letter[0]) - 'a' : -1;
            if (place < 0 || place >= count)
            {
                row.Refuse($"column 'correct': '{Cell.Show(text)}' names no option that is there; {accepted}.");
                return null;
            }

            correct[place] = true;
        }

        return correct;
    }

    private static string Letter(int place) => ((char)('a' + place)).ToString();

    // The same item has the same name whichever row it stands in, so that reading a longer file again adds only what is new.
    private static string Label(string prompt, IEnumerable<string> options)
        => "item-" + Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join('\n', options.Prepend(prompt)))))[..10];
}
