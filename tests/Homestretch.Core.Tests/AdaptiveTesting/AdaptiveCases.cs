using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.AdaptiveTesting;

/// <summary>Exams with item banks, and the slow way to find out what an answer would change.</summary>
internal static class AdaptiveCases
{
    private static readonly QuadratureDetail Fine = new(0.4, 1e-9, 7, 1, 0);

    public static readonly Exam OneTotal = SampleExams.OneSection(
        new PercentCut(65), SampleExams.Topic("A", 14), SampleExams.Topic("B", 9), SampleExams.Topic("C", 5));

    public static readonly Exam TwoSections = SampleExams.Of(
        OverallRule.TotalWithSectionMinimums,
        new PercentCut(62),
        SampleExams.Section("First", new PercentCut(50), 4, SampleExams.Topic("A", 12), SampleExams.Topic("B", 8)),
        SampleExams.Section("Second", new PercentCut(55), 0, SampleExams.Topic("C", 10), SampleExams.Topic("D", 3)));

    /// <summary>Items of all kinds on every topic, the same for the same seed.</summary>
    public static ItemBank Bank(Exam exam, int perTopic, int seed = 7)
    {
        Random random = new(seed);
        return new ItemBank(
        [
            .. exam.Topics.SelectMany(t => Enumerable.Range(1, perTopic).Select(i => new BankItem(
                t.Name,
                $"{t.Name}-{i}",
                ItemModel.ThreeParameter,
                new ItemCurve(0.6 + (1.2 * random.NextDouble()), -2 + (4 * random.NextDouble()), 0.25 * random.NextDouble())))),
        ]);
    }

    public static Attempt Sitting(params (BankItem Item, bool Right)[] answers)
        => new("Someone", "quick", AttemptKind.Diagnostic, SampleExams.Today, [.. answers.Select(a => (Observation)new ItemResponse(a.Item.Topic, null, a.Item.Item, a.Right, null, null))]);

    public static AbilityPosterior Posterior(Exam exam, ItemBank bank, params Attempt[] attempts)
        => StandingCalculator.PosteriorOf(exam, [.. attempts], SampleExams.Today, StandingAssumptions.Default, bank);

    /// <summary>The pass chance from the beginning, with further answers.</summary>
    public static double PassChance(Exam exam, ItemBank bank, ImmutableArray<Attempt> attempts, params (BankItem Item, bool Right)[] more)
        => new ScoreModel(exam, Posterior(exam, bank, [.. attempts, Sitting(more)]), null, Fine).PassChance(new double[exam.Topics.Length]);
}
