using System.Collections.Immutable;

using BenchmarkDotNet.Attributes;

using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

namespace Homestretch.Bench;

/// <summary>A quick diagnostic's next step on the large case with a bank of 500 items, from answers to advice (to stay under 50 ms).</summary>
[MemoryDiagnoser]
public class NextItemBench
{
    private static readonly ItemBank _bank = new([.. Enumerable.Range(0, 500).Select(Item)]);

    private static readonly ImmutableArray<Attempt> _attempts =
    [
        .. LargeCase.Attempts,
        new("A candidate", "quick", AttemptKind.Diagnostic, LargeCase.From.Date, [.. _bank.Items.Take(10).Select((i, n) => new ItemResponse(i.Topic, null, i.Item, n % 3 > 0, null, null))]),
    ];

    [Params(DiagnosticTarget.PassChance, DiagnosticTarget.Bands)]
    public DiagnosticTarget Target { get; set; }

    [Benchmark]
    public DiagnosticStep Next() => Step(1);

    [Benchmark]
    public DiagnosticStep Set() => Step(10);

    private DiagnosticStep Step(int count)
    {
        CandidateStanding standing = StandingCalculator.Calculate(LargeCase.Exam, _attempts, LargeCase.From.Date, null, _bank);
        GivenItems given = GivenItems.Count(_bank, _attempts, [], LargeCase.From.Date);
        DiagnosticStep step = NextItemFinder.Find(standing, _bank, given, DiagnosticRules.Default with { Target = Target, AtLeast = 20 }, count, "A candidate");
        return step.Items.Length == count ? step : throw new InvalidOperationException($"{step.Items.Length} items instead of {count}: {step.Stop}.");
    }

    // Slopes from 0.6 to 1.8, difficulties from -2 to 2, guessing from 0.1 to 0.25, in an order that mixes them.
    private static BankItem Item(int number)
    {
        double Part(int step) => number * step % 101 / 100.0;
        ItemCurve curve = new(0.6 + (1.2 * Part(37)), -2 + (4 * Part(59)), 0.1 + (0.15 * Part(73)));
        return new BankItem(LargeCase.Exam.Topics[number % 12].Name, $"item {number}", ItemModel.ThreeParameter, curve);
    }
}
