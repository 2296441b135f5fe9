using System.Globalization;
using System.Text;

namespace Homestretch.Files.Sheets;

/// <summary>What spreadsheets really write into a cell.</summary>
internal static class Cell
{
    private const int MostShown = 60;

    /// <summary>The value without stray spaces: ends trimmed, inner runs of white space (non-breaking ones and line breaks too) as one space,
    /// invisible marks dropped.</summary>
    public static string Tidy(string value)
    {
        StringBuilder tidy = new(value.Length);
        bool gap = false;
        foreach (char c in value)
        {
            if (char.IsWhiteSpace(c))
            {
                gap = true;
                continue;
            }

            // Byte order marks and zero-width spaces come in with copied cells and cannot be seen.
            if (c is '\ufeff' or '\u200b' or '\u200e' or '\u200f' or '\u2060')
            {
                continue;
            }

            if (gap && tidy.Length > 0)
            {
                tidy.Append(' ');
            }

            gap = false;
            tidy.Append(c);
        }

        return tidy.ToString();
    }

    /// <summary>A value as a message may quote it: tidy and not too long.</summary>
    public static string Show(string value)
    {
        string tidy = Tidy(value);
        return tidy.Length <= MostShown ? tidy : string.Concat(tidy.AsSpan(0, MostShown), "…");
    }

    /// <summary>Whether a spreadsheet would have calculated this rather than shown it.</summary>
    public static bool IsFormula(string value) => value.Length > 0 && value[0] is '=' or '+' or '@';

    /// <summary>What a message says of a value that is not the number wanted.</summary>
    public static string NotNumber(string value) => IsFormula(value)
        ? $"'{Show(value)}' is a formula or has a sign; save the result as a value:"
        : $"'{Show(value)}' will not do;";

    /// <summary>A number with a decimal point or a decimal comma, without sign, exponent or thousands separator.</summary>
    public static bool TryNumber(string value, out decimal number)
    {
        number = 0;
        if (value.Length is 0 or > 15 || value.Any(c => !char.IsAsciiDigit(c) && c is not ('.' or ',')))
        {
            return false;
        }

        return decimal.TryParse(value.Replace(',', '.'), NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number);
    }

    /// <summary>A whole number; "12.0" and "12,00" count as one, "1.000" does not, since it may mean a thousand.</summary>
    public static bool TryWhole(string value, out int whole)
    {
        whole = 0;
        int mark = value.IndexOfAny(['.', ',']);
        if (mark >= 0 && value.Length - mark > 3)
        {
            return false;
        }

        if (!TryNumber(value, out decimal number) || number != decimal.Truncate(number) || number > int.MaxValue)
        {
            return false;
        }

        whole = (int)number;
        return true;
    }
}
