namespace Homestretch.Files.Exams.Pasting;

/// <summary>A weight found in a line.</summary>
/// <param name="Kind">What it counts.</param>
/// <param name="Low">Lower end; the same as <paramref name="High"/> unless a range is printed.</param>
/// <param name="High">Upper end.</param>
internal sealed record PastedWeight(PastedWeight.Unit Kind, double Low, double High)
{
    /// <summary>What a figure counts.</summary>
    public enum Unit
    {
        /// <summary>The figure stands alone; the table as a whole tells.</summary>
        Bare,

        /// <summary>Percent.</summary>
        Percent,

        /// <summary>Items.</summary>
        Items,
    }
}
