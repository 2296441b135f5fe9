namespace Homestretch.Core.Laboratory;

/// <summary>What one policy led to.</summary>
/// <param name="Policy">The policy.</param>
/// <param name="Passed">Candidates who passed.</param>
/// <param name="PassRate">Share that passed.</param>
/// <param name="StandardError">Standard error of that share.</param>
/// <param name="MeanHours">Mean hours of study that took place.</param>
/// <param name="AtPlan">How forecasts made with the first plan held.</param>
/// <param name="OnEve">How forecasts on the day before the exam held.</param>
public sealed record PolicyResult(
    LaboratoryPolicy Policy,
    long Passed,
    double PassRate,
    double StandardError,
    double MeanHours,
    ForecastCheck AtPlan,
    ForecastCheck OnEve);
