using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>How far pass and fail decisions on a test can be trusted.</summary>
/// <param name="Cut">Correct answers needed on this test.</param>
/// <param name="Accuracy">Share of decisions that agree with the true score (Livingston and Lewis).</param>
/// <param name="FalsePass">Share who pass though their true score is below the mark.</param>
/// <param name="FalseFail">Share who fail though their true score reaches the mark.</param>
/// <param name="Consistency">Share with the same decision on two such tests.</param>
/// <param name="Kappa">Consistency beyond chance.</param>
/// <param name="HuynhConsistency">Consistency by Huynh.</param>
/// <param name="HuynhKappa">Kappa by Huynh.</param>
/// <param name="EffectiveItems">Effective test length; null where refused.</param>
/// <param name="Parameters">Parameters of the true-score distribution; 0 where refused.</param>
public sealed record DecisionFields(
    int Cut,
    StatisticFields Accuracy,
    StatisticFields FalsePass,
    StatisticFields FalseFail,
    StatisticFields Consistency,
    StatisticFields Kappa,
    StatisticFields HuynhConsistency,
    StatisticFields HuynhKappa,
    int? EffectiveItems,
    int Parameters)
{
    internal static DecisionFields Of(ClassificationReport report) => new(
        report.Cut,
        StatisticFields.Of(report.Accuracy),
        StatisticFields.Of(report.FalsePass),
        StatisticFields.Of(report.FalseFail),
        StatisticFields.Of(report.Consistency),
        StatisticFields.Of(report.Kappa),
        StatisticFields.Of(report.HuynhConsistency),
        StatisticFields.Of(report.HuynhKappa),
        report.EffectiveItems,
        report.Parameters);
}
