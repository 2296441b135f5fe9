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
    private const double FirstReach = 0.5;

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

    /// <summary>Chance that somebody answers an item correctly whose chance of a correct answer to the bank's items on its topic is, on average, <paramref name="topicChance"/>.</summary>
    /// <param name="item">An item of the bank.</param>
    /// <param name="topicChance">0 to 1.</param>
    public double Chance(BankItem item, double topicChance)
    {
        ArgumentNullException.ThrowIfNull(item);
        return item.Curve.Chance(AbilitiesFor(item.Topic, [topicChance])[0]);
    }

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
        double guess = low;
        for (int i = 0; i < chances.Length; i++)
        {
            // Abilities ascend with the chances, so the search goes on where the last one ended, and tries first where the curve's tangent leads.
            (low, double slope) = Solve(curves, chances[i], low, guess);
            abilities[i] = low;
            guess = i + 1 < chances.Length ? low + ((chances[i + 1] - chances[i]) / slope) : low;
        }

        return abilities;
    }

    // Newton's method, held between what is known to be too low and too high; while nothing is too high it may go as far as it went before, and again.
    private static (double Ability, double Slope) Solve(ItemCurve[] curves, double chance, double low, double guess)
    {
        (double value, double slope) = Average(curves, low);
        if (value >= chance)
        {
            return (low, slope);
        }

        double high = double.PositiveInfinity;
        double reach = FirstReach;
        double at = guess > low && guess < low + reach ? guess : low + reach;
        for (int step = 0; step < 200 && at < Furthest; step++)
        {
            (value, slope) = Average(curves, at);
            if (value < chance)
            {
                low = at;
            }
            else
            {
                high = at;
            }

            double next = at - ((value - chance) / slope);
            if (double.IsPositiveInfinity(high))
            {
                reach *= 2;
                next = next > low && next < low + reach ? next : low + reach;
            }
            else if (!(next > low && next < high))
            {
                next = (low + high) / 2;
            }

            // A step of Newton's is as wrong as the square of its length.
            if (Math.Abs(next - at) < 1e-7 || high - low < 1e-13)
            {
                return (next, slope);
            }

            at = next;
        }

        return (Math.Min(at, Furthest), slope);
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
