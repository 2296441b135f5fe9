namespace Homestretch.Core.Laboratory;

/// <summary>What became of one candidate under one policy.</summary>
/// <param name="Passed">Whether the exam was passed.</param>
/// <param name="Minutes">Minutes of study that took place.</param>
/// <param name="ForecastAtPlan">Pass chance as the planner saw it when the first plan was made.</param>
/// <param name="ForecastOnEve">Pass chance as the planner saw it on the day before the exam.</param>
internal readonly record struct CandidateOutcome(bool Passed, int Minutes, double ForecastAtPlan, double ForecastOnEve);
