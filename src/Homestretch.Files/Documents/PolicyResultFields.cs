using Homestretch.Core.Laboratory;

namespace Homestretch.Files.Documents;

/// <summary>What one policy led to in one scenario.</summary>
/// <param name="Policy">The policy.</param>
/// <param name="Passed">Candidates who passed.</param>
/// <param name="PassRate">Share that passed.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="MeanHours">Mean hours of study that took place.</param>
/// <param name="ForecastAtPlan">How forecasts made with the first plan held.</param>
/// <param name="ForecastOnEve">How forecasts on the day before the exam held.</param>
public sealed record PolicyResultFields(
    string Policy,
    long Passed,
    double PassRate,
    double StandardError,
    double MeanHours,
    ForecastCheckFields ForecastAtPlan,
    ForecastCheckFields ForecastOnEve)
{
    internal static PolicyResultFields Of(PolicyResult result)
        => new(
            Words.Of(result.Policy),
            result.Passed,
            result.PassRate,
            result.StandardError,
            result.MeanHours,
            ForecastCheckFields.Of(result.AtPlan),
            ForecastCheckFields.Of(result.OnEve));
}
