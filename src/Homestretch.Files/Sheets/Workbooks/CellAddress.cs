namespace Homestretch.Files.Sheets.Workbooks;

/// <summary>Where a cell stands: the <c>C7</c> of a spreadsheet.</summary>
/// <param name="Column">From 0.</param>
/// <param name="Row">From 1.</param>
internal readonly record struct CellAddress(int Column, int Row)
{
    /// <summary>Columns that a sheet can have (ECMA-376).</summary>
    public const int MostColumns = 16_384;

    /// <summary>Rows that a sheet can have (ECMA-376).</summary>
    public const int MostRows = 1_048_576;

    /// <summary>Reads an address; false where it is none.</summary>
    public static bool TryParse(string text, out CellAddress address)
    {
        address = default;
        int letters = 0;
        int column = 0;
        while (letters < text.Length && letters < 3 && char.IsAsciiLetterUpper(text[letters]))
        {
            column = (column * 26) + (text[letters] - 'A' + 1);
            letters++;
        }

        if (letters == 0 || column > MostColumns || !int.TryParse(text.AsSpan(letters), System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out int row)
            || row is < 1 or > MostRows)
        {
            return false;
        }

        address = new(column - 1, row);
        return true;
    }

    /// <summary>As a spreadsheet shows it.</summary>
    public override string ToString()
    {
        string letters = "";
        for (int rest = Column + 1; rest > 0; rest = (rest - 1) / 26)
        {
            letters = (char)('A' + ((rest - 1) % 26)) + letters;
        }

        return letters + Row.ToString(System.Globalization.CultureInfo.InvariantCulture);
    }
}
