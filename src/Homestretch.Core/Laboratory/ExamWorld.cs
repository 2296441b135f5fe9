using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Laboratory;

/// <summary>A made-up exam, and what is true of it beside what is published.</summary>
internal sealed class ExamWorld
{
    private const double OneSectionShare = 0.5;
    private const double TwoSectionShare = 0.35;
    private const int FewestTopics = 5;
    private const int MostTopics = 12;
    private const int FewestItems = 60;
    private const int MostItems = 150;
    private const double WeightLogSd = 0.5;
    private const int LowestCut = 60;
    private const int HighestCut = 70;

    private ExamWorld(Exam exam, int[] trueItems, Scenario scenario, long seed, int number)
    {
        Exam = exam;
        TrueItems = trueItems;
        Rule = new PassRule(exam);
        int[] published = [.. exam.Topics.Select(t => t.Items)];
        DiagnosticItems = Share(published, scenario.DiagnosticItems);
        QuizItems = Share(published, scenario.QuizItems);
        Curves = [.. exam.Topics.Select(t => new ResponseCurve(t.Section.GuessChance))];
        double mean = (double)exam.ScoredItems / exam.Topics.Length;
        Breadth = Array.ConvertAll(trueItems, n => LearningAssumptions.Default.BreadthFactor(Math.Max(1, n), mean));
        Pools = scenario.Tests is PooledTests pooled ? pooled.Pools(published, seed, number) : [];
    }

    /// <summary>The exam as published, and as every policy knows it.</summary>
    public Exam Exam { get; }

    /// <summary>Items per topic of the exam that will be sat.</summary>
    public int[] TrueItems { get; }

    /// <summary>Items per topic of the diagnostic.</summary>
    public int[] DiagnosticItems { get; }

    /// <summary>Items per topic of each quiz.</summary>
    public int[] QuizItems { get; }

    /// <summary>How ability becomes a chance, per topic.</summary>
    public ResponseCurve[] Curves { get; }

    /// <summary>How much an hour moves each topic against one of average size.</summary>
    public double[] Breadth { get; }

    /// <summary>Each topic's items, where tests are drawn from a pool.</summary>
    public (double Discrimination, double Difficulty)[][] Pools { get; }

    /// <summary>The rule for passing.</summary>
    public PassRule Rule { get; }

    /// <summary>Draws an exam: one to three sections, 5 to 12 topics, 60 to 150 items, mostly four options, a cut score of 60 to 70 %.</summary>
    public static ExamWorld Draw(Scenario scenario, long seed, int number)
    {
        RandomSequence random = new(seed, Draws.Blueprint, number);
        double sectionsAt = random.Uniform();
        int sectionCount = sectionsAt < OneSectionShare ? 1 : sectionsAt < OneSectionShare + TwoSectionShare ? 2 : 3;
        int topicCount = random.Between(Math.Max(FewestTopics, 3 * sectionCount), MostTopics);
        int itemCount = 5 * random.Between(FewestItems / 5, MostItems / 5);
        int options = random.Below(10) switch { < 7 => 4, 7 => 3, 8 => 5, _ => 0 };
        int cut = random.Between(LowestCut, HighestCut);
        int ruleAt = random.Below(3);
        OverallRule rule = sectionCount == 1 || ruleAt == 0 ? OverallRule.Total : ruleAt == 1 ? OverallRule.EverySection : OverallRule.TotalWithSectionMinimums;

        List<int> trueItems = [];
        ImmutableArray<Section>.Builder sections = ImmutableArray.CreateBuilder<Section>();
        for (int s = 0; s < sectionCount; s++)
        {
            int first = s * topicCount / sectionCount;
            int count = ((s + 1) * topicCount / sectionCount) - first;
            int sectionItems = itemCount * count / topicCount;
            double[] weights = new double[count];
            double[] truth = new double[count];
            for (int t = 0; t < count; t++)
            {
                weights[t] = Math.Exp(WeightLogSd * random.Normal());
                truth[t] = weights[t] * Math.Exp(scenario.WeightLogSd * random.Normal());
            }

            int[] items = Apportionment.LargestRemainder(weights, sectionItems);
            trueItems.AddRange(Apportionment.LargestRemainder(truth, sectionItems));
            ImmutableArray<Topic> topics = [.. items.Select((n, t) =>
                new Topic(string.Create(CultureInfo.InvariantCulture, $"Topic {first + t + 1:00}"), Weight.Items(n), n, []))];

            // Where the total decides and sections have minimums, those are lower than the total's cut score.
            PercentCut? own = rule switch { OverallRule.Total => null, OverallRule.EverySection => new PercentCut(cut), _ => new PercentCut(cut - 10) };
            sections.Add(new Section(string.Create(CultureInfo.InvariantCulture, $"Section {s + 1}"), sectionItems, 0, null, options, own, topics));
        }

        Exam exam = new(
            string.Create(CultureInfo.InvariantCulture, $"Exam {number + 1}"),
            null,
            null,
            sections.ToImmutable(),
            rule,
            rule == OverallRule.EverySection ? null : new PercentCut(cut),
            null,
            BandEdges.Default);
        return new ExamWorld(exam, [.. trueItems], scenario, seed, number);
    }

    /// <summary>Whether these correct answers per topic pass.</summary>
    public bool Passes(ReadOnlySpan<int> correct)
    {
        int total = 0;
        int topic = 0;
        bool sections = true;
        for (int s = 0; s < Exam.Sections.Length; s++)
        {
            int section = 0;
            for (int end = topic + Exam.Sections[s].Topics.Length; topic < end; topic++)
            {
                section += correct[topic];
            }

            sections &= section >= Rule.SectionMinimum[s];
            total += section;
        }

        return sections && total >= Rule.Total;
    }

    // By weight, and at least one item on each topic.
    private static int[] Share(int[] published, int items)
        => Array.ConvertAll(Apportionment.LargestRemainder([.. published.Select(n => (double)n)], items), n => Math.Max(1, n));
}
