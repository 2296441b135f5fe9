using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>The items that may come next: not answered before, not shown to too many, and in step with the blueprint.</summary>
/// <remarks>With n items given, a topic whose share of the exam's items is w should have had w n of them. It may be ahead by the slack and no more; topics that would
/// fall behind by more than the slack come first, as long as the bank has items on them.</remarks>
internal sealed class ItemPool
{
    private readonly Exam exam;
    private readonly DiagnosticRules rules;
    private readonly int[] topics;
    private readonly int[] givenByTopic;
    private readonly HashSet<int> unused;

    public ItemPool(Exam exam, ItemBank bank, GivenItems given, DiagnosticRules rules)
    {
        this.exam = exam;
        this.rules = rules;
        Dictionary<string, int> places = exam.Topics.Select((t, i) => (t.Name, i)).ToDictionary(t => t.Name, t => t.i, StringComparer.Ordinal);
        if (bank.Items.FirstOrDefault(i => !places.ContainsKey(i.Topic)) is { } stranger)
        {
            throw new ArgumentException($"The exam has no topic '{stranger.Topic}'.", nameof(bank));
        }

        BankItem[] onScored = [.. bank.Items.Where(i => exam.Topics[places[i.Topic]].Items > 0)];
        BankItem[] fresh = [.. onScored.Where(i => !given.Answered.Contains(i))];
        bool limited = given.OtherPeople >= rules.ExposureFromPeople;
        Items = [.. fresh.Where(i => !limited || given.Exposure(i) <= rules.MostExposure)];
        topics = [.. Items.Select(i => places[i.Topic])];
        unused = [.. Enumerable.Range(0, Items.Length)];
        givenByTopic = new int[exam.Topics.Length];
        foreach (BankItem item in given.Sitting)
        {
            givenByTopic[places[item.Topic]]++;
        }

        FindOpen();
        Stock = new BankStock(
            onScored.Length,
            onScored.Length - fresh.Length,
            fresh.Length - Items.Length,
            Items.Length - Open.Length,
            [.. exam.Topics.Where((_, t) => IsBehind(t) && !topics.Contains(t))]);
    }

    /// <summary>Unused items that have not been shown to too many, in the order of the bank.</summary>
    public ImmutableArray<BankItem> Items { get; }

    /// <summary>What the bank had at the beginning.</summary>
    public BankStock Stock { get; }

    /// <summary>Numbers of the items that may come next, ascending.</summary>
    public ImmutableArray<int> Open { get; private set; }

    /// <summary>Whether the items that may come next are those of topics that have fallen behind.</summary>
    public bool AnyBehind { get; private set; }

    /// <summary>Takes an item as given.</summary>
    public void Take(int item)
    {
        unused.Remove(item);
        givenByTopic[topics[item]]++;
        FindOpen();
    }

    private void FindOpen()
    {
        int[] order = [.. unused.Order()];
        AnyBehind = false;
        if (rules.Target == DiagnosticTarget.Bands)
        {
            Open = [.. order];
            return;
        }

        int[] behind = [.. order.Where(i => IsBehind(topics[i]))];
        AnyBehind = behind.Length > 0;
        Open = AnyBehind ? [.. behind] : [.. order.Where(i => givenByTopic[topics[i]] + 1 <= ShareOf(topics[i]) + rules.BlueprintSlack)];
    }

    private bool IsBehind(int topic) => rules.Target == DiagnosticTarget.PassChance && givenByTopic[topic] < ShareOf(topic) - rules.BlueprintSlack;

    // Items that the topic should have had once the next one is given.
    private double ShareOf(int topic) => (double)exam.Topics[topic].Items / exam.ScoredItems * (givenByTopic.Sum() + 1);
}
