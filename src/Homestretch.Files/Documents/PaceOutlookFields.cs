using System.Collections.Immutable;

using Homestretch.Core.Forecasting;

namespace Homestretch.Files.Documents;

/// <summary>What the exam's time limits mean for the person.</summary>
/// <param name="Items">Items the pace rests on.</param>
/// <param name="MedianSeconds">Median seconds per item; null where no times are known, only how far the person got in a test.</param>
/// <param name="PassChanceInTime">Pass chance if every item were reached, 0 to 1.</param>
/// <param name="Cost">What the time limits take from the pass chance, 0 to 1.</param>
/// <param name="Sections">The sections with a time limit, in the order of the exam.</param>
/// <param name="Sentence">The finding, a sentence.</param>
public sealed record PaceOutlookFields(
    int Items, double? MedianSeconds, double PassChanceInTime, double Cost, ImmutableArray<SectionPaceFields> Sections, string Sentence)
{
    /// <summary>The fields of an outlook.</summary>
    public static PaceOutlookFields? Of(PaceOutlook? outlook) => outlook is null
        ? null
        : new(
            outlook.Pace.Items,
            outlook.Pace.Relative ? null : Math.Exp(outlook.Pace.LogMean),
            outlook.PassChanceInTime,
            outlook.Cost,
            [.. outlook.Sections.Select(s => new SectionPaceFields(s.Section.Name, s.Reach.Items, s.Reach.Minutes, s.Reach.ExpectedReached.Value ?? 0, s.Reach.FinishChance.Value ?? 0))],
            outlook.Sentence);
}
