using System.Collections.Immutable;

namespace Homestretch.Core.Blueprints;

/// <summary>An exam as its owner publishes it: the blueprint and the rules for passing and retaking.</summary>
public sealed record Exam
{
    private const double HeavyFrom = 1.25;
    private const double LightTo = 0.75;

    /// <exception cref="ArgumentException">Two topics or two sections share a name, or the rule lacks the cut score it needs.</exception>
    public Exam(
        string name,
        string? edition,
        FigureSource? source,
        ImmutableArray<Section> sections,
        OverallRule rule,
        CutScore? totalCut,
        RetakeRule? retake,
        BandEdges bands)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        if (sections.IsDefaultOrEmpty)
        {
            throw new ArgumentException("An exam has at least one section.", nameof(sections));
        }

        if (rule == OverallRule.EverySection && sections.Any(s => s.Cut is null))
        {
            throw new ArgumentException("Every section needs a cut score under this rule.", nameof(sections));
        }

        if (rule != OverallRule.EverySection && totalCut is null)
        {
            throw new ArgumentException("The total needs a cut score under this rule.", nameof(totalCut));
        }

        Name = name;
        Edition = edition;
        Source = source;
        Sections = sections;
        Rule = rule;
        TotalCut = totalCut;
        Retake = retake;
        Bands = bands;
        ScoredItems = sections.Sum(s => s.ScoredItems);
        int count = sections.Sum(s => s.Topics.Length);
        Topics = [.. sections.SelectMany((s, i) => s.Topics.Select(t => new ExamTopic(t, s, i, Classify(t.Items, count, ScoredItems))))];
        if (Topics.Select(t => t.Name).Distinct(StringComparer.OrdinalIgnoreCase).Count() != count)
        {
            throw new ArgumentException("Topic names must be unique in the exam.", nameof(sections));
        }
    }

    /// <summary>The exam's name.</summary>
    public string Name { get; }

    /// <summary>Edition of the blueprint, as published.</summary>
    public string? Edition { get; }

    /// <summary>Where the figures were published.</summary>
    public FigureSource? Source { get; }

    /// <summary>Sections in the order of the exam file, at least one.</summary>
    public ImmutableArray<Section> Sections { get; }

    /// <summary>All topics of all sections, in order.</summary>
    public ImmutableArray<ExamTopic> Topics { get; }

    /// <summary>How the sections decide the whole.</summary>
    public OverallRule Rule { get; }

    /// <summary>Cut score of the total; null when every section decides for itself.</summary>
    public CutScore? TotalCut { get; }

    /// <summary>Rules for a retake, where published.</summary>
    public RetakeRule? Retake { get; }

    /// <summary>Where weak ends and strong begins.</summary>
    public BandEdges Bands { get; }

    /// <summary>What else the coach wants to remember of the exam; null where nothing was written.</summary>
    public string? Notes { get; init; }

    /// <summary>Scored items of all sections.</summary>
    public int ScoredItems { get; }

    /// <summary>Chance of guessing a scored item right, on average.</summary>
    public double MeanGuessChance => Sections.Sum(s => s.ScoredItems * s.GuessChance) / ScoredItems;

    /// <summary>The fewest correct answers in all that can pass: the total's cut score, or the sum of the sections' where that is more.</summary>
    public int RequiredCorrect
    {
        get
        {
            int sections = Rule == OverallRule.Total ? 0 : Sections.Sum(s => s.Cut?.RequiredCorrect(s.ScoredItems) ?? 0);
            return Math.Max(sections, TotalCut?.RequiredCorrect(ScoredItems) ?? 0);
        }
    }

    private static WeightClass Classify(int items, int topics, int scoredItems)
    {
        double relative = (double)items * topics / scoredItems;
        return relative >= HeavyFrom ? WeightClass.Heavy : relative <= LightTo ? WeightClass.Light : WeightClass.Moderate;
    }
}
