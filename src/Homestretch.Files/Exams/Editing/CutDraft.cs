using System.Globalization;

using Homestretch.Core.Blueprints;

namespace Homestretch.Files.Exams.Editing;

/// <summary>A cut score as typed.</summary>
/// <param name="Kind">What the mark counts: <see cref="Correct"/>, <see cref="Percent"/> or <see cref="Scaled"/>; empty where there is no cut score.</param>
/// <param name="Mark">The mark itself.</param>
/// <param name="AtZero">Scaled score for no correct answer, where the scale is a line.</param>
/// <param name="AtAll">Scaled score for all answers correct, where the scale is a line.</param>
/// <param name="Table">Published table: correct answers and scaled score, a row on each line.</param>
public sealed record CutDraft(string Kind, string Mark, string AtZero, string AtAll, string Table)
{
    /// <summary>The mark is a number of correct answers.</summary>
    public const string Correct = "correct";

    /// <summary>The mark is a percentage of the scored items.</summary>
    public const string Percent = "percent";

    /// <summary>The mark is a score on a reporting scale.</summary>
    public const string Scaled = "scaled";

    /// <summary>No cut score.</summary>
    public static CutDraft None { get; } = new("", "", "", "", "");

    /// <summary>A cut score as it would be typed.</summary>
    public static CutDraft Of(CutScore? cut) => cut switch
    {
        CorrectCut correct => None with { Kind = Correct, Mark = correct.Correct.ToString(CultureInfo.InvariantCulture) },
        PercentCut percent => None with { Kind = Percent, Mark = ExamFileText.Number(percent.Percent) },
        ScaledLineCut line => new(Scaled, ExamFileText.Number(line.AtLeast), ExamFileText.Number(line.AtZero), ExamFileText.Number(line.AtAll), ""),
        ScaledTableCut table => None with
        {
            Kind = Scaled,
            Mark = ExamFileText.Number(table.AtLeast),
            Table = string.Join('\n', table.Table.Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Correct} {ExamFileText.Number(r.Scaled)}"))),
        },
        _ => None,
    };
}
