using System.Globalization;

using ExcelNumberFormat;

namespace Homestretch.Files.Sheets.Workbooks;

/// <summary>How the numbers of a cell style are shown. A spreadsheet keeps dates and percentages as bare numbers; only the style tells them apart.</summary>
internal sealed class NumberLook
{
    // ECMA-376 part 1, 18.8.30: the formats that every spreadsheet knows by number. Those left out here show plain numbers.
    private static readonly Dictionary<uint, string> _known = new()
    {
        [9] = "0%",
        [10] = "0.00%",
        [14] = "yyyy-mm-dd",
        [15] = "d-mmm-yy",
        [16] = "d-mmm",
        [17] = "mmm-yy",
        [18] = "h:mm AM/PM",
        [19] = "h:mm:ss AM/PM",
        [20] = "h:mm",
        [21] = "h:mm:ss",
        [22] = "yyyy-mm-dd h:mm",
        [45] = "mm:ss",
        [46] = "[h]:mm:ss",
        [47] = "mm:ss",
    };

    // Days from the first day of the one calendar of spreadsheets to that of the other.
    private const int DaysFrom1900To1904 = 1462;

    private readonly NumberFormat? _format;
    private readonly bool _isPercent;
    private readonly int _leadingZeros;

    private NumberLook(string code)
    {
        NumberFormat format = new(code);
        _format = format.IsValid ? format : null;
        _isPercent = _format is { IsDateTimeFormat: false, IsTimeSpanFormat: false } && Unquoted(code).Contains('%', StringComparison.Ordinal);
        _leadingZeros = code.Length > 1 && code.All(c => c == '0') ? code.Length : 0;
    }

    /// <summary>Shows numbers as they are.</summary>
    public static NumberLook Plain { get; } = new("General");

    /// <summary>The look of a format.</summary>
    /// <param name="id">The format's number.</param>
    /// <param name="own">Formats that the workbook defines itself.</param>
    public static NumberLook Of(uint id, IReadOnlyDictionary<uint, string> own)
        => own.TryGetValue(id, out string? code) || _known.TryGetValue(id, out code) ? new(code) : Plain;

    /// <summary>The number as a CSV file would hold it: dates as 2026-11-22, percentages as they are shown, all else with every digit.</summary>
    /// <param name="number">What the cell keeps.</param>
    /// <param name="from1904">Whether the workbook counts days from 1904.</param>
    /// <returns>The text; null where the style shows a date and the number is none.</returns>
    public string? Show(double number, bool from1904)
    {
        if (_format is { IsTimeSpanFormat: true })
        {
            return ShowTime(number);
        }

        if (_format is { IsDateTimeFormat: true })
        {
            if (number is >= 0 and < 1)
            {
                return ShowTime(number);
            }

            double day = from1904 ? number + DaysFrom1900To1904 : number;
            if (day is not (> 0 and < 2_958_466))
            {
                return null;
            }

            // To the second, since a fraction of a day has no exact figure.
            DateTime moment = DateTime.FromOADate(Math.Floor(day)).AddSeconds(Math.Round((day - Math.Floor(day)) * 86_400));
            return moment.ToString(moment.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : "yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
        }

        if (_isPercent)
        {
            return _format!.Format(number, CultureInfo.InvariantCulture);
        }

        // Spreadsheets keep 15 significant digits, and so does this conversion: 0.1 + 0.2 is 0.3 for them.
        string plain = number == 0 ? "0"
            : Math.Abs(number) is >= 1e-9 and < 1e15 ? ((decimal)number).ToString("0.###############################", CultureInfo.InvariantCulture)
            : number.ToString("R", CultureInfo.InvariantCulture);
        return _leadingZeros > 0 && plain.All(char.IsAsciiDigit) ? plain.PadLeft(_leadingZeros, '0') : plain;
    }

    private static string? ShowTime(double days)
    {
        if (days is not (>= 0 and < 10_000))
        {
            return null;
        }

        TimeSpan time = TimeSpan.FromSeconds(Math.Round(days * 86_400));
        return string.Create(CultureInfo.InvariantCulture, $"{(int)time.TotalHours}:{time.Minutes:00}:{time.Seconds:00}");
    }

    private static string Unquoted(string code) => string.Concat(code.Split('"').Where((_, i) => i % 2 == 0));
}
