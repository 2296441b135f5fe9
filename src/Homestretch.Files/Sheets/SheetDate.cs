using System.Globalization;
using System.Text.RegularExpressions;

using NodaTime;

namespace Homestretch.Files.Sheets;

/// <summary>Dates as they stand in spreadsheets.</summary>
internal static partial class SheetDate
{
    /// <summary>Earlier years are taken for a slip.</summary>
    public const int EarliestYear = 1990;

    /// <summary>Later years are taken for a slip.</summary>
    public const int LatestYear = 2099;

    private const string Accepted = "write it as 2026-11-22 or 22.11.2026";

    private static readonly string[] Months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

    /// <summary>The date, or null and what is wrong with it.</summary>
    public static LocalDate? Parse(string text, out string problem)
    {
        problem = "";
        string shown = Cell.Show(text);
        Match m;
        int year;
        int month;
        int day;
        if ((m = YearFirst().Match(text)).Success)
        {
            (year, month, day) = (Number(m, 1), Number(m, 2), Number(m, 3));
        }
        else if ((m = Dotted().Match(text)).Success)
        {
            (year, month, day) = (Number(m, 3), Number(m, 2), Number(m, 1));
        }
        else if ((m = Named().Match(text)).Success && Array.IndexOf(Months, m.Groups[2].Value[..3].ToLowerInvariant()) is >= 0 and var named)
        {
            (year, month, day) = (Number(m, 3), named + 1, Number(m, 1));
        }
        else if ((m = Slashed().Match(text)).Success)
        {
            int first = Number(m, 1);
            int second = Number(m, 2);
            year = Number(m, 3);
            if (first != second && first is >= 1 and <= 12 && second is >= 1 and <= 12)
            {
                problem = $"'{shown}' may mean {Iso(year, second, first)} or {Iso(year, first, second)}; {Accepted}.";
                return null;
            }

            (month, day) = second > 12 ? (first, second) : (second, first);
        }
        else if (text.Length > 0 && text.All(char.IsAsciiDigit))
        {
            problem = $"'{shown}' is a bare number, as a spreadsheet stores dates; {Accepted}.";
            return null;
        }
        else
        {
            problem = $"'{shown}' is not a date; {Accepted}.";
            return null;
        }

        if (month is < 1 or > 12 || year < 1 || day < 1 || day > CalendarSystem.Iso.GetDaysInMonth(year, month))
        {
            problem = $"'{shown}' is not in the calendar; {Accepted}.";
            return null;
        }

        if (year is < EarliestYear or > LatestYear)
        {
            problem = $"'{shown}' lies outside {EarliestYear} to {LatestYear}; check the year.";
            return null;
        }

        return new LocalDate(year, month, day);
    }

    private static int Number(Match match, int group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    private static string Iso(int year, int month, int day) => string.Create(CultureInfo.InvariantCulture, $"{year:0000}-{month:00}-{day:00}");

    // A spreadsheet may add midnight to a date; any other time of day would be lost, so it is not accepted.
    [GeneratedRegex(@"^([0-9]{4})[-/]([0-9]{1,2})[-/]([0-9]{1,2})(?:[T ]00:00(?::00(?:\.0+)?)?Z?)?$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^([0-9]{1,2})\. ?([0-9]{1,2})\. ?([0-9]{4})$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Dotted();

    [GeneratedRegex(@"^([0-9]{1,2})[ -]([A-Za-z]{3,9})[ -]([0-9]{4})$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Named();

    [GeneratedRegex(@"^([0-9]{1,2})[/-]([0-9]{1,2})[/-]([0-9]{4})$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Slashed();
}
