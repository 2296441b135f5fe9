namespace Homestretch.Core.Measurement;

/// <summary>How far pass and fail decisions on this test can be trusted.</summary>
/// <param name="Cut">Correct answers needed on this test.</param>
/// <param name="Items">Items of this test.</param>
/// <param name="Accuracy">Share of people whose decision here agrees with the one on their true score (Livingston &amp; Lewis 1995).</param>
/// <param name="FalsePass">Share who pass here though their true score is below the mark.</param>
/// <param name="FalseFail">Share who fail here though their true score reaches the mark.</param>
/// <param name="Consistency">Share who would get the same decision on two such tests.</param>
/// <param name="Kappa">Consistency beyond chance (Cohen 1960).</param>
/// <param name="HuynhConsistency">The same by Huynh (1976), as if all items were equally hard.</param>
/// <param name="HuynhKappa">Kappa by Huynh (1976).</param>
/// <param name="EffectiveItems">Items of a test of equally hard, independent items with the same reliability.</param>
/// <param name="Parameters">4 or 2: parameters of the true-score distribution; 0 where refused.</param>
public sealed record ClassificationReport(
    int Cut,
    int Items,
    Statistic Accuracy,
    Statistic FalsePass,
    Statistic FalseFail,
    Statistic Consistency,
    Statistic Kappa,
    Statistic HuynhConsistency,
    Statistic HuynhKappa,
    int? EffectiveItems,
    int Parameters);
