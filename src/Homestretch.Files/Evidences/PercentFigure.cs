using System.Globalization;
using System.Text.RegularExpressions;

using Homestretch.Files.Sheets;

namespace Homestretch.Files.Evidences;

/// <summary>A percentage from a score report, or a band of percentages, both as printed, that is, rounded.</summary>
/// <param name="Low">Lower end, 0 to 100.</param>
/// <param name="High">Upper end, 0 to 100; the same as <paramref name="Low"/> for a single figure.</param>
/// <param name="Decimals">Decimal places to which it was rounded.</param>
/// <param name="IsBand">Whether two ends were given.</param>
internal readonly partial record struct PercentFigure(decimal Low, decimal High, int Decimals, bool IsBand)
{
    private const int MostDecimals = 6;

    /// <summary>Reads "57", "57 %", "57,5%", "41-60 %", "41 % to 60 %".</summary>
    public static bool TryParse(string text, out PercentFigure figure)
    {
        figure = default;
        Match match = Shape().Match(text);
        if (!match.Success || !Cell.TryNumber(match.Groups["low"].Value, out decimal low))
        {
            return false;
        }

        decimal high = low;
        bool band = match.Groups["high"].Success;
        if (band && !Cell.TryNumber(match.Groups["high"].Value, out high))
        {
            return false;
        }

        int decimals = Math.Max(DecimalsOf(match.Groups["low"].Value), band ? DecimalsOf(match.Groups["high"].Value) : 0);
        if (decimals > MostDecimals)
        {
            return false;
        }

        figure = new PercentFigure(low, high, decimals, band);
        return true;
    }

    /// <summary>The counts of <paramref name="items"/> that would have been printed like this: for a single figure those whose
    /// percentage rounds to it (an exact half may have been rounded either way), for a band those whose percentage, a half rounded up,
    /// lies in it with both ends included. Null when there is none.</summary>
    public (int Low, int High)? Counts(int items)
    {
        // Everything is multiplied by items, so that no division can blur an exact half.
        decimal half = HalfUnit;
        decimal lowest = (Low - half) * items;
        decimal beyond = (High + half) * items;
        int? first = null;
        int? last = null;
        for (int k = 0; k <= items; k++)
        {
            decimal scaled = 100m * k;
            bool inside = scaled >= lowest && (IsBand ? scaled < beyond : scaled <= beyond);
            if (inside)
            {
                first ??= k;
                last = k;
            }
        }

        return first is { } f && last is { } l ? (f, l) : null;
    }

    /// <summary>The possible percentages next to this one, for a message: "50 % (6 of 12) and 58 % (7 of 12)".</summary>
    public string Nearest(int items)
    {
        int below = (int)Math.Clamp(decimal.Floor(Low * items / 100m), 0, items);
        int above = (int)Math.Clamp(decimal.Ceiling(High * items / 100m), 0, items);
        int decimals = Decimals;
        string Text(int k) => $"{Math.Round(100m * k / items, decimals, MidpointRounding.AwayFromZero).ToString(CultureInfo.InvariantCulture)} % ({k} of {items})";
        return below == above ? Text(below) : $"{Text(below)} and {Text(above)}";
    }

    private decimal HalfUnit
    {
        get
        {
            decimal unit = 0.5m;
            for (int i = 0; i < Decimals; i++)
            {
                unit /= 10;
            }

            return unit;
        }
    }

    private static int DecimalsOf(string number)
    {
        int mark = number.IndexOfAny(['.', ',']);
        return mark < 0 ? 0 : number.Length - mark - 1;
    }

    [GeneratedRegex(@"^(?<low>[0-9]+(?:[.,][0-9]+)?) ?%?(?: ?(?:-|–|—|‒|−|to) ?(?<high>[0-9]+(?:[.,][0-9]+)?) ?%?)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex Shape();
}
