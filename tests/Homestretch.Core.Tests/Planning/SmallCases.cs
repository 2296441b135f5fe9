using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning;

/// <summary>Random cases that are small enough to look at every plan: two to four topics, two to eight slots.</summary>
internal static class SmallCases
{
    private static readonly DateTimeZone _zone = PlannerTests.Zone;

    public static readonly Gen<(CandidateStanding Standing, ImmutableArray<Slot> Slots, LocalDate ExamDay)> All =
        from sizes in Gen.Int[3, 24].Array[2, 4]
        from sections in Gen.Int[1, 2]
        from rule in Gen.Enum<OverallRule>()
        from cuts in Gen.Int[45, 80].Array[3]
        from options in Gen.OneOf(Gen.Const(0), Gen.Const(4))
        from known in Gen.Select(Gen.Int[1, 14], Gen.Double[0.2, 0.95]).Array[sizes.Length]
        from days in Gen.Int[3, 30]
        from windows in Gen.Select(Gen.Int[0, days - 1], Gen.Int[30, 250]).Array[1, 8]
        let exam = Make(sizes, sections, rule, cuts, options)
        let standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic([.. exam.Topics.Select((t, i) => (t.Name, (int)Math.Round(known[i].Item1 * known[i].Item2), known[i].Item1))]), SampleExams.Today)
        let examDay = SampleExams.Today.PlusDays(days)
        let slots = Slots(windows, examDay)
        where slots.Length >= 2 && slots.Length <= (sizes.Length == 2 ? 8 : sizes.Length == 3 ? 7 : 6)
        select (standing, slots, examDay);

    private static Exam Make(int[] sizes, int sections, OverallRule rule, int[] cuts, int options)
        => SampleExams.Of(
            rule,
            rule == OverallRule.EverySection ? null : new PercentCut(cuts[2]),
            [.. sizes.Index().GroupBy(s => s.Index % sections).Select(s => SampleExams.Section(
                $"Section {s.Key}",
                new PercentCut(rule == OverallRule.TotalWithSectionMinimums ? cuts[s.Key] / 2 : cuts[s.Key]),
                options,
                [.. s.Select(t => SampleExams.Topic($"Topic {t.Index}", t.Item))]))]);

    private static ImmutableArray<Slot> Slots((int Day, int Minutes)[] windows, LocalDate examDay)
        => SlotFinder.Find(
            new FreeTime(_zone, [], [], [.. windows.Select(w => new ExtraWindow(SampleExams.Today.PlusDays(w.Day), new LocalTime(17, 0), new LocalTime(17, 0).PlusMinutes(w.Minutes)))]),
            [],
            _zone.AtStrictly(SampleExams.Today.At(new LocalTime(8, 0))),
            examDay).Slots;
}
