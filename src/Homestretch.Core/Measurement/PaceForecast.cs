namespace Homestretch.Core.Measurement;

/// <summary>Whether a person who works at the pace seen so far gets through a section.</summary>
/// <param name="Items">Items of the section, scored and unscored.</param>
/// <param name="Minutes">Its time limit.</param>
/// <param name="Times">Times seen.</param>
/// <param name="MedianSeconds">Median seconds per item so far.</param>
/// <param name="ExpectedMinutes">Minutes the section would take without a limit.</param>
/// <param name="FinishChance">Chance of reaching the last item and answering it within the limit.</param>
/// <param name="ExpectedReached">Expected items answered within the limit.</param>
/// <param name="Remark">The finding as a sentence.</param>
public sealed record PaceForecast(
    int Items,
    int Minutes,
    int Times,
    Statistic MedianSeconds,
    Statistic ExpectedMinutes,
    Statistic FinishChance,
    Statistic ExpectedReached,
    string Remark);
