using System.Globalization;

using Homestretch.Core.Blueprints;

namespace Homestretch.Web.Assuming;

/// <summary>A cut score as one figure that a person can change, in the unit in which it was published.</summary>
/// <param name="Value">The figure.</param>
/// <param name="Least">The smallest figure accepted.</param>
/// <param name="Most">The largest figure accepted.</param>
/// <param name="Unit">What it counts: "% of items", "correct answers", "scaled score".</param>
/// <param name="WholeOnly">Whether only whole numbers make sense.</param>
public sealed record CutFigure(double Value, double Least, double Most, string Unit, bool WholeOnly)
{
    /// <summary>The figure of a cut score.</summary>
    /// <param name="cut">The cut score.</param>
    /// <param name="items">The scored items it is for.</param>
    public static CutFigure Of(CutScore cut, int items) => cut switch
    {
        CorrectCut correct => new(correct.Correct, 1, items, "correct answers", true),
        PercentCut percent => new(percent.Percent, 1, 100, "% of items", false),
        ScaledLineCut line => new(line.AtLeast, line.AtZero, line.AtAll, "scaled score", false),
        ScaledTableCut table => new(table.AtLeast, table.Table[0].Scaled, table.Table[^1].Scaled, "scaled score", false),
        _ => throw new ArgumentOutOfRangeException(nameof(cut), cut, "Unknown kind of cut score."),
    };

    /// <summary>The same kind of cut score with another figure.</summary>
    public static CutScore With(CutScore cut, double value) => cut switch
    {
        CorrectCut => new CorrectCut((int)value),
        PercentCut => new PercentCut(value),
        ScaledLineCut line => line with { AtLeast = value },
        ScaledTableCut table => table with { AtLeast = value },
        _ => throw new ArgumentOutOfRangeException(nameof(cut), cut, "Unknown kind of cut score."),
    };

    /// <summary>The figure as it stands in a form.</summary>
    public string Text => Value.ToString("0.##", CultureInfo.InvariantCulture);

    /// <summary>What is accepted, in words.</summary>
    public string Accepted => string.Create(CultureInfo.InvariantCulture, $"{(WholeOnly ? "a whole number" : "a number")} from {Least:0.##} to {Most:0.##}");
}
