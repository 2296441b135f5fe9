using System.Collections.Immutable;

using Homestretch.Core.Measurement;

namespace Homestretch.Core.Calibration;

/// <summary>How forecasts held against outcomes.</summary>
/// <param name="People">Everybody with a forecast and an outcome, in the order of the evidence.</param>
/// <param name="LeftOut">Everybody else.</param>
/// <param name="Basis">What the forecasts rest on besides each person's own tests.</param>
/// <param name="OtherLengths">How many of the outcomes had other numbers of items on some topic than the exam; their mark is the same share.</param>
/// <param name="Table">The comparison; null with fewer than <see cref="OutcomeStudy.FewestPeople"/> people.</param>
/// <param name="Passes">How many passed.</param>
/// <param name="ExpectedPasses">How many were to pass by the forecasts.</param>
/// <param name="LowPasses">Lower end of the central 90 % of the passes, if the forecasts are right.</param>
/// <param name="HighPasses">Upper end.</param>
public sealed record OutcomeStudyResult(
    ImmutableArray<PersonOutcome> People,
    ImmutableArray<LeftOutPerson> LeftOut,
    StandingBasis Basis,
    int OtherLengths,
    CalibrationTable? Table,
    int Passes,
    double ExpectedPasses,
    int LowPasses,
    int HighPasses);
