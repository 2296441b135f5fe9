using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Adaptive;

/// <summary>The study's invented exam, 60 items in 8 topics with a pass mark of 65 %, and its bank of 240 three-parameter items.</summary>
public static class StudyCase
{
    private static readonly int[] _items = [12, 10, 9, 8, 7, 6, 5, 3];

    /// <summary>The exam.</summary>
    public static Exam Exam { get; } = new(
        "An invented exam of 60 items",
        null,
        null,
        [new("Whole", _items.Sum(), 0, 90, 4, new PercentCut(65), [.. _items.Select((n, t) => new Topic($"Topic {t + 1}", Weight.Items(n), n, []))])],
        OverallRule.EverySection,
        null,
        null,
        BandEdges.Default);

    /// <summary>A bank with items on each topic in the blueprint's proportions: slopes log-normal about 1.1, difficulties normal, guessing about a quarter.</summary>
    /// <param name="items">Items in all.</param>
    /// <param name="seed">Same seed, same bank.</param>
    public static ItemBank Bank(int items, int seed)
    {
        Random random = new(seed);
        double Normal(double mean, double sd) => MathNet.Numerics.Distributions.Normal.Sample(random, mean, sd);
        int[] counts = Apportionment.LargestRemainder([.. _items.Select(n => (double)n)], items);
        return new ItemBank(
        [
            .. Exam.Topics.SelectMany((topic, t) => Enumerable.Range(1, counts[t]).Select(i => new BankItem(
                topic.Name,
                $"{t + 1}.{i}",
                ItemModel.ThreeParameter,
                new ItemCurve(Math.Exp(Normal(0.1, 0.3)), Normal(0, 1), Math.Clamp(Normal(0.22, 0.05), 0.05, 0.4))))),
        ]);
    }
}
