using System.Text.RegularExpressions;

using Homestretch.Core.Evidence;
using Homestretch.Files.Sheets;

namespace Homestretch.Files.Evidences;

/// <summary>How a test compares with the exam, as a person writes it.</summary>
internal static partial class AgainstExam
{
    private const decimal MostPoints = (decimal)FormDifference.MostPoints * 100;

    private const string Accepted = "write such as '4 points easier', '4 points harder ± 2' or 'as the exam', or leave it empty.";

    /// <summary>The difference, or null and a problem noted.</summary>
    /// <param name="text">What the cell holds, trimmed.</param>
    /// <param name="guess">Chance of guessing an item of the exam right.</param>
    /// <param name="problem">Gets what is wrong.</param>
    public static FormDifference? Parse(string text, double guess, Action<string> problem)
    {
        Match match = Pattern().Match(text);
        if (!match.Success)
        {
            problem($"column 'against exam': {(Cell.IsFormula(text) ? $"'{Cell.Show(text)}' is a formula or has a sign;" : $"'{Cell.Show(text)}' does not say how the test compares with the exam;")} {Accepted}");
            return null;
        }

        decimal points = 0;
        if (match.Groups["points"] is { Success: true } number && !(Cell.TryNumber(number.Value, out points) && points <= MostPoints))
        {
            problem($"column 'against exam': '{Cell.Show(text)}' is more than {MostPoints:0} points, which two tests of one blueprint hardly differ by; {Accepted}");
            return null;
        }

        decimal? sd = null;
        if (match.Groups["sd"] is { Success: true } spread)
        {
            if (!Cell.TryNumber(spread.Value, out decimal s) || s <= 0 || s > MostPoints)
            {
                problem($"column 'against exam': '{Cell.Show(text)}': after ± belongs a number above 0 and up to {MostPoints:0}; {Accepted}");
                return null;
            }

            sd = s;
        }

        bool harder = match.Groups["way"].Value.StartsWith("h", StringComparison.OrdinalIgnoreCase);
        return FormDifference.OfPoints((double)(harder ? -points : points) / 100, (double?)sd / 100, guess);
    }

    [GeneratedRegex(
        @"^(?:(?<points>[0-9]+(?:[.,][0-9]+)?) ?(?:percentage )?(?:points?|%) (?<way>easier|harder)(?: than the exam)?|as the exam)(?: ?(?:±|\+/-|\+-) ?(?<sd>[0-9]+(?:[.,][0-9]+)?)(?: ?(?:percentage )?(?:points?|%))?)?$",
        RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
