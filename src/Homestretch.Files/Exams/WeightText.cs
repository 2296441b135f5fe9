using System.Globalization;
using System.Text.RegularExpressions;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Yaml;

namespace Homestretch.Files.Exams;

/// <summary>Reads a weight as blueprints print it: "18 items", "30 %", "25-35 %".</summary>
internal static partial class WeightText
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "a weight such as '18 items', '30 %' or '25-35 %'";

    /// <summary>The weight, or null with what is wrong.</summary>
    public static Weight? Parse(string text, out string? problem)
    {
        problem = null;
        Match match = Form().Match(text);
        if (!match.Success)
        {
            problem = DecimalComma().IsMatch(text)
                ? $"{YamlProblems.Show(text)} has a decimal comma; write a decimal point, such as '12.5 %'."
                : $"{YamlProblems.Show(text)} is not accepted; give {Accepted}.";
            return null;
        }

        double low = double.Parse(match.Groups["low"].ValueSpan, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture);
        bool isRange = match.Groups["high"].Success;
        double high = isRange ? double.Parse(match.Groups["high"].ValueSpan, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture) : low;
        if (!match.Groups["unit"].Success)
        {
            problem = isRange
                ? $"{YamlProblems.Show(text)} has no unit; write '{text} %'."
                : $"{YamlProblems.Show(text)} has no unit; write '{text} items' or '{text} %'.";
            return null;
        }

        return match.Groups["items"].Success ? Items(text, low, isRange, out problem) : Percent(text, low, high, isRange, out problem);
    }

    /// <summary>A weight as it is typed: <c>1 item</c>, <c>18 items</c>, <c>30 %</c>, <c>25-35 %</c>.</summary>
    public static string Write(Weight weight) => weight.Unit == WeightUnit.Items
        ? string.Create(CultureInfo.InvariantCulture, $"{weight.Low} {(weight.Low == 1 ? "item" : "items")}")
        : string.Create(CultureInfo.InvariantCulture, $"{(weight.Low == weight.High ? "" : $"{weight.Low:0.######}-")}{weight.High:0.######} %");

    private static Weight? Items(string text, double items, bool isRange, out string? problem)
    {
        problem = isRange ? $"{YamlProblems.Show(text)} is a range of items; give one number of items, or a range of percentages such as '25-35 %'."
            : items != Math.Floor(items) ? $"{YamlProblems.Show(text)} is not a whole number of items; give one such as '18 items'."
            : items < 1 ? $"{YamlProblems.Show(text)} is nothing; leave out what the exam does not test, or give at least '1 item'."
            : items > ExamFile.MostItems ? $"{YamlProblems.Show(text)} is out of range; give 1 to {ExamFile.MostItems} items."
            : null;
        return problem is null ? Weight.Items((int)items) : null;
    }

    private static Weight? Percent(string text, double low, double high, bool isRange, out string? problem)
    {
        problem = low > 100 || high > 100 ? $"{YamlProblems.Show(text)} is above 100 %; give {Accepted}."
            : high <= 0 ? $"{YamlProblems.Show(text)} is nothing; leave out what the exam does not test, or give a weight above 0 %."
            : low > high ? $"{YamlProblems.Show(text)} runs backwards; write the lower end first: '{YamlProblems.Show(high)}-{YamlProblems.Show(low)} %'."
            : null;
        return problem is not null ? null : isRange ? Weight.PercentRange(low, high) : Weight.Percent(low);
    }

    // Hyphen, en dash, or the word; the unit may stand after both ends.
    [GeneratedRegex(@"^(?<low>[0-9]{1,6}(\.[0-9]{1,6})?)(\s*(?:%|percent)?\s*(?:-|–|to)\s*(?<high>[0-9]{1,6}(\.[0-9]{1,6})?))?\s*(?<unit>(?<items>items?)|%|per\s?cent)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Form();

    [GeneratedRegex("[0-9],[0-9]", RegexOptions.CultureInvariant)]
    private static partial Regex DecimalComma();
}
