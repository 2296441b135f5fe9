using System.Collections.Immutable;

namespace Homestretch.Core.Calibration;

/// <summary>How a split study is made.</summary>
/// <param name="Splits">Random splits, one or more.</param>
/// <param name="Seed">Same seed, same splits.</param>
public sealed record SplitStudyOptions(int Splits, int Seed)
{
    /// <summary>Whether the people that priors are learned from have taken the exam half too, as a cohort that has sat the exam; otherwise its items are as new to the program as to the people forecast.</summary>
    public bool ExamSatBefore { get; init; }

    /// <summary>Marks on the total to forecast, in percent of the exam half's items, in place of the exam's own rule; none: the exam's own rule.</summary>
    public ImmutableArray<double> TotalPercents { get; init; } = [];
}
