using System.Collections.Immutable;

using Homestretch.Core.Evidence;

namespace Homestretch.Core.Standing;

/// <summary>Calibrated items, looked up by topic and label.</summary>
/// <remarks>All items of one topic share a scale; it need not be that of another topic or of the standing. A topic's ability is what its typical item says
/// of it: the chance of a correct answer averaged over the bank's items on the topic is the topic's chance (the test characteristic curve,
/// Lord 1980, as the link between the two scales). An item harder than the topic's average then has a lower chance, an easier one a higher.</remarks>
public sealed class ItemBank
{
    // Chances stop moving long before this on any scale.
    private const double Furthest = 1e3;

    private readonly Dictionary<(string Topic, string Item, string Test), BankItem> byLabel;
    private readonly ILookup<string, BankItem> byTopic;

    /// <param name="items">The items.</param>
    /// <exception cref="ArgumentException">A label comes twice in one topic, or a curve does not rise or is not a number.</exception>
    public ItemBank(ImmutableArray<BankItem> items)
    {
        Items = items;
        byLabel = new Dictionary<(string, string, string), BankItem>(items.Length);
        foreach (BankItem item in items)
        {
            (double a, double b, double c) = item.Curve;
            if (!(a > 0) || !double.IsFinite(a) || !double.IsFinite(b) || !(c >= 0 && c < 1))
            {
                throw new ArgumentException(
                    $"Item '{item.Item}' on '{item.Topic}' needs a slope above 0, a finite difficulty, and a guessing chance from 0 to below 1.", nameof(items));
            }

            if (!byLabel.TryAdd((item.Topic, item.Item, Folded(item.Test)), item))
            {
                throw new ArgumentException($"Topic '{item.Topic}' has item '{item.Item}' twice in one test.", nameof(items));
            }
        }

        byTopic = items.ToLookup(i => i.Topic, StringComparer.Ordinal);
    }

    /// <summary>All items, in the order given.</summary>
    public ImmutableArray<BankItem> Items { get; }

    /// <summary>An item, or null when the bank does not have it.</summary>
    /// <param name="topic">The topic's name.</param>
    /// <param name="item">The item's label.</param>
    /// <param name="test">The test in which it was answered. An item of another test is not found: two tests may number their items alike.</param>
    public BankItem? Find(string topic, string item, string? test)
        => byLabel.GetValueOrDefault((topic, item, Folded(test))) ?? byLabel.GetValueOrDefault((topic, item, Folded(null)));

    /// <summary>The item that an answer is to, or null.</summary>
    internal BankItem? Find(DatedObservation evidence)
        => evidence.Observation is ItemResponse response ? Find(response.Topic, response.Item, evidence.Test) : null;

    /// <summary>The one test that all items on a topic belong to, and how many they are; null where they belong to several or to none.</summary>
    internal (string? Test, int Items) Source(string topic)
    {
        string? test = byTopic[topic].First().Test;
        return (byTopic[topic].All(i => Folded(i.Test) == Folded(test)) ? test : null, byTopic[topic].Count());
    }

    private static string Folded(string? test) => test?.ToUpperInvariant() ?? string.Empty;

    /// <summary>How many average items of its topic an item's answer is worth at most: the square of its slope against theirs, at least 1.</summary>
    internal int Worth(BankItem item)
    {
        double ratio = item.Curve.Discrimination / byTopic[item.Topic].Average(i => i.Curve.Discrimination);
        return (int)Math.Clamp(Math.Ceiling(ratio * ratio), 1, 100);
    }

    /// <summary>The abilities on a topic's own scale at which the bank's items on it are answered correctly with given average chances.</summary>
    /// <param name="topic">A topic with at least one item.</param>
    /// <param name="chances">Chances, ascending. Chances that guessing alone exceeds give the lowest ability, those out of reach the highest.</param>
    internal double[] AbilitiesFor(string topic, ReadOnlySpan<double> chances)
    {
        ItemCurve[] curves = [.. byTopic[topic].Select(i => i.Curve)];
        double[] abilities = new double[chances.Length];
        double low = -Furthest;
        for (int i = 0; i < chances.Length; i++)
        {
            // Abilities ascend with the chances, so the search goes on where the last one ended.
            abilities[i] = low = Solve(curves, chances[i], low);
        }

        return abilities;
    }

    // Bisection on a bracket that doubles from the last answer, then Newton inside it.
    private static double Solve(ItemCurve[] curves, double chance, double from)
    {
        if (Average(curves, from).Chance >= chance)
        {
            return from;
        }

        double low = from;
        double high = from;
        for (double width = 0.25; Average(curves, high).Chance < chance; width *= 2)
        {
            low = high;
            high += width;
            if (high > Furthest)
            {
                return Furthest;
            }
        }

        double middle = (low + high) / 2;
        for (int step = 0; step < 100 && high - low > 1e-13; step++)
        {
            (double value, double slope) = Average(curves, middle);
            if (value < chance)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }

            double next = middle - ((value - chance) / slope);
            next = next > low && next < high ? next : (low + high) / 2;
            if (Math.Abs(next - middle) < 1e-14)
            {
                break;
            }

            middle = next;
        }

        return middle;
    }

    private static (double Chance, double Slope) Average(ItemCurve[] curves, double ability)
    {
        double chance = 0;
        double slope = 0;
        foreach (ItemCurve curve in curves)
        {
            double logistic = 1 / (1 + Math.Exp(-curve.Discrimination * (ability - curve.Difficulty)));
            chance += curve.Guessing + ((1 - curve.Guessing) * logistic);
            slope += (1 - curve.Guessing) * curve.Discrimination * logistic * (1 - logistic);
        }

        return (chance / curves.Length, slope / curves.Length);
    }
}
