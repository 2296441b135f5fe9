using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Tests.Properties;

/// <summary>Random exams and evidence for property tests.</summary>
internal static class Generators
{
    private static readonly int[] OptionCounts = [0, 2, 4, 5];
    private static readonly Gen<int> Options = Gen.Int[0, 3].Select(i => OptionCounts[i]);

    /// <summary>One to three sections of one to five topics, any rule, any options.</summary>
    public static readonly Gen<Exam> Exams =
        from sections in Gen.Select(Gen.Int[1, 20].Array[1, 5], Options, Gen.Double[30, 90]).Array[1, 3]
        from rule in Gen.Enum<OverallRule>()
        from total in Gen.Double[40, 85]
        select Make(sections, rule, total);

    /// <summary>An exam with a count for each topic, some of them zero.</summary>
    public static readonly Gen<(Exam Exam, ImmutableArray<(string Topic, int Correct, int Items)> Counts)> Cases =
        from exam in Exams
        from counts in Gen.Select(Gen.Int[0, 15], Gen.Double[0, 1]).Array[exam.Topics.Length]
        select (exam, counts.Select((c, t) => (exam.Topics[t].Name, (int)Math.Round(c.Item1 * c.Item2), c.Item1)).ToImmutableArray());

    /// <summary>The same exam with its topics and sections in another order.</summary>
    public static Exam Reordered(Exam exam, int seed)
    {
        Random random = new(seed);
        return new Exam(
            exam.Name,
            null,
            null,
            [.. exam.Sections.OrderBy(_ => random.Next()).Select(s =>
                new Section(s.Name, s.ScoredItems, s.UnscoredItems, s.Minutes, s.Options, s.Cut, [.. s.Topics.OrderBy(_ => random.Next())]))],
            exam.Rule,
            exam.TotalCut,
            null,
            exam.Bands);
    }

    public static ImmutableArray<Attempt> Attempts(IEnumerable<(string Topic, int Correct, int Items)> counts)
        => SampleExams.Diagnostic([.. counts.Where(c => c.Items > 0)]);

    private static Exam Make((int[] Items, int Options, double Cut)[] sections, OverallRule rule, double total)
        => SampleExams.Of(
            rule,
            rule == OverallRule.EverySection ? null : new PercentCut(total),
            [.. sections.Select((s, i) => SampleExams.Section(
                $"Section {i + 1}",
                new PercentCut(rule == OverallRule.TotalWithSectionMinimums ? s.Cut / 2 : s.Cut),
                s.Options,
                [.. s.Items.Select((n, t) => SampleExams.Topic($"Topic {i + 1}.{t + 1}", n))]))]);
}
