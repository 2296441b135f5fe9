using System.Globalization;
using System.Text;

using CsvHelper;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;
using Homestretch.Files.Evidences;

namespace Homestretch.Files.ItemBanks;

/// <summary>Reads and writes item banks: CSV files of calibrated items, described in docs/item-bank.md.</summary>
public static class ItemBankFile
{
    private const int MostRecordBytes = 1024 * 1024;
    private const double SteepestSlope = 20;
    private const double FurthestDifficulty = 50;
    private const double LargestGuessing = 0.9;
    private const double LargestError = 1000;

    private static readonly System.Buffers.SearchValues<char> NeedQuotes = System.Buffers.SearchValues.Create("\",;\t\r\n");

    private static readonly char[] Separators = [',', ';', '\t'];

    private static readonly string[] Names =
        ["topic", "item", "model", "discrimination", "difficulty", "guessing", "discrimination-se", "difficulty-se", "guessing-se", "test"];

    private static readonly ItemBankColumn[] Required = [ItemBankColumn.Topic, ItemBankColumn.Item, ItemBankColumn.Model, ItemBankColumn.Difficulty];

    private static readonly Dictionary<string, ItemModel> Models = new(StringComparer.OrdinalIgnoreCase)
    {
        ["rasch"] = ItemModel.Rasch,
        ["2PL"] = ItemModel.TwoParameter,
        ["3PL"] = ItemModel.ThreeParameter,
    };

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file as the person named it.</param>
    /// <param name="exam">The exam whose topics the items belong to.</param>
    public static ReadResult<ItemBank> Read(string path, Exam exam)
    {
        ProblemList problems = new();
        return FileText.ReadBytes(path, problems) is { } bytes ? Parse(path, bytes, exam) : ReadResult<ItemBank>.Failed(problems.InOrder());
    }

    /// <summary>Reads a file that is in memory.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">The file, in any encoding that spreadsheets write.</param>
    /// <param name="exam">The exam whose topics the items belong to.</param>
    public static ReadResult<ItemBank> Parse(string fileName, ReadOnlyMemory<byte> bytes, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ProblemList problems = new();
        List<BankItem> items = [];
        if (FileText.Decode(fileName, bytes, problems) is { } text)
        {
            ParseText(fileName, text, new TopicNames(exam), items, problems);
        }

        return problems.IsEmpty ? ReadResult<ItemBank>.Ok(new ItemBank([.. items])) : ReadResult<ItemBank>.Failed(problems.InOrder());
    }

    /// <summary>The file's text, lines ending in a line feed; numbers are rounded to six decimals.</summary>
    public static string Write(ItemBank bank)
    {
        ArgumentNullException.ThrowIfNull(bank);
        StringBuilder text = new();
        text.AppendJoin(',', Names).Append('\n');
        foreach (BankItem item in bank.Items)
        {
            (double a, double b, double c) = item.Curve;
            string[] fields =
            [
                Quote(item.Topic),
                Quote(item.Item),
                Models.First(m => m.Value == item.Model).Key,
                item.Model == ItemModel.Rasch ? string.Empty : Number(a),
                Number(b),
                item.Model == ItemModel.ThreeParameter ? Number(c) : string.Empty,
                Number(item.DiscriminationError),
                Number(item.DifficultyError),
                Number(item.GuessingError),
                Quote(item.Test ?? string.Empty),
            ];
            text.AppendJoin(',', fields).Append('\n');
        }

        return text.ToString();
    }

    private static void ParseText(string file, string text, TopicNames names, List<BankItem> items, ProblemList problems)
    {
        string first = text.Split('\n', 2)[0];
        CsvReaderOptions options = new()
        {
            Separator = Separators.MaxBy(s => first.Split(s).Length),
            HasHeader = false,
            TrackLineNumbers = true,
            TrimWhitespace = true,
            DetectSeparatorHint = false,
            FieldCountMismatch = CsvFieldCountHandling.Allow,
            MalformedData = CsvMalformedDataHandling.Recover,
            MaxRecordSize = MostRecordBytes,
            OnMalformedRecord = record => problems.Add(file, (int)record.LineNumber, "A quote mark is not closed, or stands in the middle of a field; put the whole field in quote marks and write the inner one twice."),
        };
        int[]? columns = null;
        Dictionary<(string, string, string), int> lines = [];
        bool anyRow = false;
        using CsvReader reader = CsvReader.FromText(text, options);
        try
        {
            while (reader.Read())
            {
                int line = (int)reader.LineNumber;
                string[] fields = [.. Enumerable.Range(0, reader.FieldCount).Select(i => Cell.Tidy(reader.GetString(i)))];
                if (Array.TrueForAll(fields, f => f.Length == 0))
                {
                    continue;
                }

                if (columns is null)
                {
                    columns = ReadHeader(file, line, fields, problems);
                    if (columns is null)
                    {
                        return;
                    }

                    continue;
                }

                anyRow = true;
                if (ReadRow(fields, columns, names, message => problems.Add(file, line, message)) is { } item)
                {
                    (string, string, string) key = (item.Topic, item.Item, item.Test?.ToUpperInvariant() ?? string.Empty);
                    if (lines.TryGetValue(key, out int earlier))
                    {
                        problems.Add(file, line, $"column 'item': '{Cell.Show(item.Item)}' stands in line {earlier} too, on the same topic; each item of a test needs a label of its own.");
                    }
                    else
                    {
                        lines.Add(key, line);
                        items.Add(item);
                    }
                }
            }
        }
        catch (CsvFormatException)
        {
            problems.Add(file, (int)Math.Max(1, reader.LineNumber), $"A row from here on is longer than {MostRecordBytes / 1024} KB; look for a quote mark that is never closed.");
            return;
        }

        if (columns is null)
        {
            problems.Add(file, 1, $"The file is empty; its first line must hold the names of the columns: {string.Join(", ", Names)}.");
        }
        else if (!anyRow && problems.IsEmpty)
        {
            problems.Add(file, 1, "The file holds column names but no items.");
        }
    }

    // Place of each known column among the fields; -1 where the file does not have it. Null when the header cannot be used.
    private static int[]? ReadHeader(string file, int line, string[] fields, ProblemList problems)
    {
        int[] columns = new int[Names.Length];
        Array.Fill(columns, -1);
        bool usable = true;
        for (int i = 0; i < fields.Length; i++)
        {
            int known = Array.FindIndex(Names, n => string.Equals(n, fields[i], StringComparison.OrdinalIgnoreCase));
            if (fields[i].Length == 0)
            {
                continue;
            }

            if (known < 0)
            {
                string hint = NearestName.Suggest(fields[i], Names) is { } near ? $" Did you mean '{near}'?" : string.Empty;
                problems.Add(file, line, $"column '{Cell.Show(fields[i])}' is not known.{hint} Known are {string.Join(", ", Names)}.");
                usable = false;
            }
            else if (columns[known] >= 0)
            {
                problems.Add(file, line, $"column '{Names[known]}' comes twice; keep one.");
                usable = false;
            }
            else
            {
                columns[known] = i;
            }
        }

        foreach (ItemBankColumn column in Required.Where(c => columns[(int)c] < 0))
        {
            problems.Add(file, line, $"column '{Names[(int)column]}' is missing; every item needs one.");
            usable = false;
        }

        return usable ? columns : null;
    }

    private static BankItem? ReadRow(string[] fields, int[] columns, TopicNames names, Action<string> problem)
    {
        string Value(ItemBankColumn column) => columns[(int)column] is var at and >= 0 && at < fields.Length ? fields[at] : string.Empty;
        bool sound = true;
        void Refuse(string message)
        {
            problem(message);
            sound = false;
        }

        for (int i = columns.Max() + 1; i < fields.Length; i++)
        {
            if (fields[i].Length > 0)
            {
                Refuse($"'{Cell.Show(fields[i])}' has no column. A value that holds the separator, such as a decimal comma, must be in quote marks.");
                return null;
            }
        }

        (ExamTopic Topic, Subtopic? Subtopic)? topic = names.Find(Value(ItemBankColumn.Topic), string.Empty, out string topicProblem);
        if (topic is null)
        {
            Refuse(topicProblem);
        }

        string label = Value(ItemBankColumn.Item);
        if (label.Length == 0)
        {
            Refuse("column 'item' is empty; write the item's label as it stands in the tests.");
        }

        string modelText = Value(ItemBankColumn.Model);
        if (!Models.TryGetValue(modelText, out ItemModel model))
        {
            Refuse(modelText.Length == 0
                ? "column 'model' is empty; write rasch, 2PL or 3PL."
                : $"column 'model': '{Cell.Show(modelText)}' is not a model; write rasch, 2PL or 3PL.");
            return null;
        }

        double? Read(ItemBankColumn column, double low, bool lowIncluded, double high, bool needed)
        {
            string name = Names[(int)column];
            string text = Value(column);
            string range = $"write a number {(lowIncluded ? "from" : "above")} {Number(low)} {(lowIncluded ? "to" : "and up to")} {Number(high)}";
            if (text.Length == 0)
            {
                if (needed)
                {
                    Refuse($"column '{name}' is empty; for the model {modelText} {range}.");
                }

                return null;
            }

            if (!TryNumber(text, out double number))
            {
                Refuse($"column '{name}': '{Cell.Show(text)}' is not a number; {range}.");
                return null;
            }

            if (number < low || (number == low && !lowIncluded) || number > high)
            {
                Refuse($"column '{name}': {Cell.Show(text)} is out of range; {range}.");
                return null;
            }

            return number;
        }

        double? slope = Read(ItemBankColumn.Discrimination, 0, false, SteepestSlope, model != ItemModel.Rasch);
        double? difficulty = Read(ItemBankColumn.Difficulty, -FurthestDifficulty, true, FurthestDifficulty, true);
        double? guessing = Read(ItemBankColumn.Guessing, 0, true, LargestGuessing, model == ItemModel.ThreeParameter);
        double? slopeError = Read(ItemBankColumn.DiscriminationError, 0, false, LargestError, false);
        double? difficultyError = Read(ItemBankColumn.DifficultyError, 0, false, LargestError, false);
        double? guessingError = Read(ItemBankColumn.GuessingError, 0, false, LargestError, false);
        if (model == ItemModel.Rasch && slope is { } other && other != 1)
        {
            Refuse($"column 'discrimination': {Number(other)} does not go with the model rasch, in which every slope is 1; leave it empty, or write 2PL.");
        }

        if (model != ItemModel.ThreeParameter && guessing is > 0)
        {
            Refuse($"column 'guessing': {Number(guessing)} does not go with the model {modelText}; leave it empty, or write 3PL.");
        }

        return sound && topic is { } found && difficulty is { } b
            ? new BankItem(found.Topic.Name, label, model, new ItemCurve(slope ?? 1, b, guessing ?? 0), slopeError, difficultyError, guessingError, Value(ItemBankColumn.Test) is { Length: > 0 } test ? test : null)
            : null;
    }

    private static bool TryNumber(string text, out double number)
    {
        number = 0;
        return text.Length <= 30
            && text.All(c => char.IsAsciiDigit(c) || c is '-' or '.' or ',' or 'e' or 'E' or '+')
            && text.Count(c => c is ',' or '.') <= 1
            && double.TryParse(text.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out number)
            && double.IsFinite(number);
    }

    private static string Number(double? value) => value is { } number ? number.ToString("0.######", CultureInfo.InvariantCulture) : string.Empty;

    private static string Quote(string value)
        => value.AsSpan().IndexOfAny(NeedQuotes) < 0 ? value : $"\"{value.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
}
