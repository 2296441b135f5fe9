namespace Homestretch.Files.Sheets;

/// <summary>Where a row begins.</summary>
internal readonly record struct RowPlace(string File, int Line)
{
    /// <summary>This place as seen from another one: "in line 4", or with the file's name where that differs.</summary>
    public string Seen(RowPlace from) => File == from.File ? $"in line {Line}" : $"in line {Line} of {File}";
}
