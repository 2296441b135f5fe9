using System.Globalization;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;
using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;

namespace Homestretch.Files.ItemBanks;

/// <summary>Reads and writes item banks: CSV files of calibrated items, described in docs/item-bank.md.</summary>
public static class ItemBankFile
{
    private const double SteepestSlope = 20;
    private const double FurthestDifficulty = 50;
    private const double LargestGuessing = 0.9;
    private const double LargestError = 1000;

    private static readonly SheetColumns<ItemBankColumn> Columns = new(
        "The first line must hold the names of the columns: topic, item, model, discrimination, difficulty, guessing, discrimination-se, difficulty-se, guessing-se, test.",
        (ItemBankColumn.Topic, ["topic"]),
        (ItemBankColumn.Item, ["item"]),
        (ItemBankColumn.Model, ["model"]),
        (ItemBankColumn.Discrimination, ["discrimination"]),
        (ItemBankColumn.Difficulty, ["difficulty"]),
        (ItemBankColumn.Guessing, ["guessing"]),
        (ItemBankColumn.DiscriminationError, ["discrimination-se"]),
        (ItemBankColumn.DifficultyError, ["difficulty-se"]),
        (ItemBankColumn.GuessingError, ["guessing-se"]),
        (ItemBankColumn.Test, ["test"]))
    {
        Needed = [ItemBankColumn.Topic, ItemBankColumn.Item, ItemBankColumn.Model, ItemBankColumn.Difficulty],
    };

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
        return ParseAll(SheetReader.Open([path], problems), exam, problems);
    }

    /// <summary>Reads a file that is in memory.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">The file, in any encoding that spreadsheets write.</param>
    /// <param name="exam">The exam whose topics the items belong to.</param>
    public static ReadResult<ItemBank> Parse(string fileName, ReadOnlyMemory<byte> bytes, Exam exam) => ParseAll([(fileName, bytes)], exam, new ProblemList());

    /// <summary>The file's text, lines ending in a line feed; numbers are rounded to six decimals.</summary>
    public static string Write(ItemBank bank)
    {
        ArgumentNullException.ThrowIfNull(bank);
        StringBuilder text = new();
        text.AppendJoin(',', Columns.Names).Append('\n');
        foreach (BankItem item in bank.Items)
        {
            (double a, double b, double c) = item.Curve;
            string[] fields =
            [
                CsvText.Quote(item.Topic),
                CsvText.Quote(item.Item),
                Models.First(m => m.Value == item.Model).Key,
                item.Model == ItemModel.Rasch ? string.Empty : Number(a),
                Number(b),
                item.Model == ItemModel.ThreeParameter ? Number(c) : string.Empty,
                Number(item.DiscriminationError),
                Number(item.DifficultyError),
                Number(item.GuessingError),
                CsvText.Quote(item.Test ?? string.Empty),
            ];
            text.AppendJoin(',', fields).Append('\n');
        }

        return text.ToString();
    }

    private static ReadResult<ItemBank> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, ProblemList problems)
    {
        ArgumentNullException.ThrowIfNull(exam);
        TopicNames names = new(exam);
        List<BankItem> items = [];
        Dictionary<(string, string, string), RowPlace> places = [];
        SheetReader.ReadAll(files, Columns, problems, row =>
        {
            if (ReadRow(row, names) is not { } item)
            {
                return;
            }

            (string, string, string) key = (item.Topic, item.Item, item.Test?.ToUpperInvariant() ?? string.Empty);
            if (places.TryGetValue(key, out RowPlace earlier))
            {
                row.Refuse($"column 'item': '{Cell.Show(item.Item)}' stands {earlier.Seen(row.Place)} too, on the same topic; each item of a test needs a label of its own.");
                return;
            }

            places.Add(key, row.Place);
            items.Add(item);
        });
        return problems.IsEmpty ? ReadResult<ItemBank>.Ok(new ItemBank([.. items])) : ReadResult<ItemBank>.Failed(problems.InOrder());
    }

    private static BankItem? ReadRow(SheetRow<ItemBankColumn> row, TopicNames names)
    {
        bool sound = true;
        void Refuse(string message)
        {
            row.Refuse(message);
            sound = false;
        }

        (ExamTopic Topic, Subtopic? Subtopic)? topic = names.Find(row[ItemBankColumn.Topic], string.Empty, out string topicProblem);
        if (topic is null)
        {
            Refuse(topicProblem + row.Short);
        }

        string label = row[ItemBankColumn.Item];
        if (label.Length == 0)
        {
            Refuse("column 'item' is empty; write the item's label as it stands in the tests.");
        }

        string modelText = row[ItemBankColumn.Model];
        if (!Models.TryGetValue(modelText, out ItemModel model))
        {
            Refuse(modelText.Length == 0
                ? "column 'model' is empty; write rasch, 2PL or 3PL."
                : $"column 'model': '{Cell.Show(modelText)}' is not a model; write rasch, 2PL or 3PL.");
            return null;
        }

        double? Read(ItemBankColumn column, double low, bool lowIncluded, double high, bool needed)
        {
            string name = Columns.NameOf(column);
            string text = row[column];
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
            ? new BankItem(found.Topic.Name, label, model, new ItemCurve(slope ?? 1, b, guessing ?? 0), slopeError, difficultyError, guessingError, row.Optional(ItemBankColumn.Test))
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
}
