using System.Collections.Immutable;

namespace Homestretch.Core.Blueprints;

/// <summary>A part of the exam with its own clock or its own cut score.</summary>
public sealed record Section
{
    /// <exception cref="ArgumentException">A count is negative, there is no topic, or the topics' items do not sum to the scored items.</exception>
    public Section(string name, int scoredItems, int unscoredItems, int? minutes, int options, CutScore? cut, ImmutableArray<Topic> topics)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(scoredItems);
        ArgumentOutOfRangeException.ThrowIfNegative(unscoredItems);
        if (minutes is { } m)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(m, nameof(minutes));
        }

        if (options < 0 || options == 1)
        {
            throw new ArgumentOutOfRangeException(nameof(options), options, "0 for items without options to choose from, 2 or more otherwise.");
        }

        if (topics.IsDefaultOrEmpty || topics.Sum(t => t.Items) != scoredItems)
        {
            throw new ArgumentException($"The topics of section '{name}' must sum to its {scoredItems} scored items.", nameof(topics));
        }

        Name = name;
        ScoredItems = scoredItems;
        UnscoredItems = unscoredItems;
        Minutes = minutes;
        Options = options;
        Cut = cut;
        Topics = topics;
    }

    /// <summary>Unique in the exam.</summary>
    public string Name { get; }

    /// <summary>Items that count, one or more.</summary>
    public int ScoredItems { get; }

    /// <summary>Items that take time but do not count.</summary>
    public int UnscoredItems { get; }

    /// <summary>Time limit in minutes, or null where none is published.</summary>
    public int? Minutes { get; }

    /// <summary>Options per item; 0 where answers are constructed rather than chosen.</summary>
    public int Options { get; }

    /// <summary>Chance of a correct answer by guessing: 1 / options, 0 without options.</summary>
    public double GuessChance => Options == 0 ? 0 : 1.0 / Options;

    /// <summary>The section's own cut score, or null where only the total counts.</summary>
    public CutScore? Cut { get; }

    /// <summary>Topics in the order of the exam file.</summary>
    public ImmutableArray<Topic> Topics { get; }
}
