using System.Text.RegularExpressions;

namespace Homestretch.Web.Afterwards;

/// <summary>What an official report says of one topic, as a person copies it: the cells of an evidence file that it fills.</summary>
/// <param name="Correct">Cell <c>correct</c>.</param>
/// <param name="Items">Cell <c>items</c>.</param>
/// <param name="Percent">Cell <c>percent</c>.</param>
/// <param name="Band">Cell <c>band</c>.</param>
public sealed partial record ReportedFigure(string Correct, string Items, string Percent, string Band)
{
    /// <summary>What can be written.</summary>
    public const string Accepted = "12 of 21, 57 % or 41-60 %";

    /// <summary>Tells counts, a percentage and a band of percentages apart; null where it is none of them. Whether the figures can be is for the reader of evidence to say.</summary>
    /// <param name="text">Such as <c>12 of 21</c>, <c>12/21</c>, <c>57 %</c>, <c>41-60 %</c>.</param>
    public static ReportedFigure? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (Counts().Match(text) is { Success: true } counts)
        {
            return new(counts.Groups["correct"].Value, counts.Groups["items"].Value, "", "");
        }

        return Range().IsMatch(text) ? new("", "", "", text.Trim())
            : Single().IsMatch(text) ? new("", "", text.Trim(), "")
            : null;
    }

    [GeneratedRegex(@"^\s*(?<correct>\d{1,4})\s*(?:of|out of|/)\s*(?<items>\d{1,4})\s*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Counts();

    [GeneratedRegex(@"^\s*\d{1,3}(?:[.,]\d{1,6})?\s*%?\s*(?:-|–|to)\s*\d{1,3}(?:[.,]\d{1,6})?\s*%?\s*$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Range();

    [GeneratedRegex(@"^\s*\d{1,3}(?:[.,]\d{1,6})?\s*%?\s*$", RegexOptions.CultureInvariant)]
    private static partial Regex Single();
}
