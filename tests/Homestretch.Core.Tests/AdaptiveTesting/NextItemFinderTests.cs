using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Properties;

namespace Homestretch.Core.Tests.AdaptiveTesting;

/// <summary>The rules of choosing and stopping.</summary>
public class NextItemFinderTests
{
    private static readonly Exam Exam = AdaptiveCases.OneTotal;
    private static readonly ItemBank Bank = AdaptiveCases.Bank(Exam, 8);
    private static readonly DiagnosticRules Best = DiagnosticRules.Default with { AmongBest = 1, AtLeast = 0, LeastChange = 0 };

    [Fact]
    public void The_item_that_tells_most_comes_first()
    {
        NextItem next = Assert.Single(Find([], Best).Items);
        double[] moves =
        [
            .. Bank.Items.Select(item =>
            {
                double right = AdaptiveCases.PassChance(Exam, Bank, [], (item, true));
                double wrong = AdaptiveCases.PassChance(Exam, Bank, [], (item, false));
                double now = AdaptiveCases.PassChance(Exam, Bank, []);
                return (right - now) * (now - wrong);
            }),
        ];
        Assert.Equal(Bank.Items[Array.IndexOf(moves, moves.Max())], next.Item);
        Assert.Equal(moves.Max(), next.Information, 2e-5);
        Assert.Equal(Math.Sqrt(next.Information), next.PassMove, 1e-9);
        Assert.Equal(ItemReason.TellsMost, next.Reason);
    }

    [Fact]
    public void No_topic_runs_ahead_of_the_blueprint_or_falls_behind()
    {
        // The second section is as good as passed, so that all there is to learn lies in the first.
        Exam exam = AdaptiveCases.TwoSections;
        ItemBank bank = AdaptiveCases.Bank(exam, 12);
        CandidateStanding standing = StandingCalculator.Calculate(exam, SampleExams.Diagnostic(("C", 40, 40), ("D", 20, 20)), SampleExams.Today);
        ImmutableArray<NextItem> Items(double slack)
            => NextItemFinder.Find(standing, bank, GivenItems.None, Best with { BlueprintSlack = slack, AtLeast = 14 }, 14, "Someone").Items;
        double Share(string topic, int items) => (double)items * exam.Topics.Single(t => t.Name == topic).Items / exam.ScoredItems;
        int Given(IEnumerable<NextItem> items, string topic) => items.Count(i => i.Item.Topic == topic);
        Assert.True(Given(Items(24), "C") < Share("C", 14) - 2);

        ImmutableArray<NextItem> kept = Items(1);
        Assert.Equal(14, kept.Length);
        for (int n = 1; n <= kept.Length; n++)
        {
            foreach (string topic in exam.Topics.Select(t => t.Name))
            {
                // One topic at a time catches up, so that another may wait an item longer than the slack.
                Assert.InRange(Given(kept.Take(n), topic), Share(topic, n) - 2, Share(topic, n) + 1 + 1e-9);
            }
        }
    }

    [Fact]
    public void A_topic_that_has_fallen_behind_comes_first()
    {
        BankItem[] onA = [.. Bank.Items.Where(i => i.Topic == "A").Take(7)];
        DiagnosticStep step = Find(onA.Select(i => (i, true)), Best with { BlueprintSlack = 1 });
        Assert.Equal(ItemReason.TopicBehind, step.Items[0].Reason);
        Assert.NotEqual("A", step.Items[0].Item.Topic);
        Assert.Empty(step.Stock.Lacking);
        Assert.Equal((24, 7, 0, 1, 16), (step.Stock.Items, step.Stock.Answered, step.Stock.TooFamiliar, step.Stock.OutOfTurn, step.Stock.Open));

        // The same with a bank that has nothing on the topic: said, and others go on.
        ItemBank without = new([.. Bank.Items.Where(i => i.Topic != "B")]);
        DiagnosticStep other = NextItemFinder.Find(
            Standing(without, onA.Select(i => (i, true))), without, Given(without, onA), Best with { BlueprintSlack = 1 }, 1, "Someone");
        Assert.Equal(["B"], other.Stock.Lacking.Select(t => t.Name));
        Assert.Equal("C", other.Items[0].Item.Topic);
    }

    [Theory]
    [InlineData(4, 0.5, 0)]
    [InlineData(6, 0.5, 3)]
    [InlineData(6, 1.0, 0)]
    public void Items_that_many_have_seen_are_held_back(int people, double most, int heldBack)
    {
        // Everybody has seen the first three items of the bank, half of them the next three.
        Attempt[] others =
        [
            .. Enumerable.Range(0, people).Select(p => AdaptiveCases.Sitting([.. Bank.Items.Take(p % 2 == 0 ? 6 : 3).Select(i => (i, true))]) with { Candidate = $"Other {p}" }),
        ];
        GivenItems given = GivenItems.Count(Bank, [], others, SampleExams.Today);
        Assert.Equal(people, given.OtherPeople);
        Assert.Equal(1, given.Exposure(Bank.Items[0]));
        Assert.Equal(0.5, given.Exposure(Bank.Items[5]));
        DiagnosticStep step = NextItemFinder.Find(Standing(Bank, []), Bank, given, Best with { MostExposure = most, BlueprintSlack = 99 }, 21, "Someone");
        Assert.Equal(heldBack, step.Stock.TooFamiliar);
        Assert.Equal(heldBack == 0, step.Items.Any(i => Bank.Items.IndexOf(i.Item) < 3));
    }

    [Fact]
    public void Only_diagnostics_of_the_day_are_the_sitting_but_every_answered_item_is_used()
    {
        BankItem[] items = [.. Bank.Items.Take(5)];
        Attempt today = AdaptiveCases.Sitting((items[0], true), (items[1], false));
        Attempt earlier = AdaptiveCases.Sitting((items[2], true)) with { Date = SampleExams.Today.PlusDays(-3) };
        Attempt quiz = AdaptiveCases.Sitting((items[3], true), (items[0], true)) with { Kind = AttemptKind.Quiz };
        GivenItems given = GivenItems.Count(Bank, [today, earlier, quiz], [], SampleExams.Today);
        Assert.Equal(items[..2], given.Sitting);
        Assert.Equal(4, given.Answered.Count);
        Assert.DoesNotContain(items[4], given.Answered);
        Assert.Equal(0, given.OtherPeople);
        Assert.Equal(0, given.Exposure(items[0]));
    }

    [Fact]
    public void It_stops_when_it_is_long_enough_whatever_is_known()
    {
        DiagnosticStep step = Find(Bank.Items.Take(6).Select((i, n) => (i, n % 2 == 0)), Best with { AtMost = 6 });
        Assert.Equal(StopReason.LongEnough, step.Stop);
        Assert.Empty(step.Items);
        Assert.Equal(step.Doubt, step.DoubtAfter);
        Assert.Equal(2, Find(Bank.Items.Take(4).Select((i, n) => (i, n % 2 == 0)), Best with { AtMost = 6 }, count: 5).Items.Length);
    }

    [Fact]
    public void It_stops_when_the_pass_chance_is_settled_but_not_before_the_least_number()
    {
        (BankItem, bool)[] all = [.. Bank.Items.Where((_, n) => n % 2 == 0).Select(i => (i, true))];
        DiagnosticStep settled = Find(all, Best with { AtLeast = 12, AtMost = 40 });
        Assert.True(settled.Pass.Settled);
        Assert.True(settled.Pass.Low > 0.5);
        Assert.Equal(StopReason.Settled, settled.Stop);
        Assert.Null(Find(all, Best with { AtLeast = 13, AtMost = 40 }).Stop);
        Assert.True(Find(all.Select(a => (a.Item1, false)), Best with { AtMost = 40 }).Pass.High < 0.5);
    }

    [Fact]
    public void It_stops_when_there_is_little_to_learn_or_nothing_left()
    {
        DiagnosticStep first = Find([], Best);
        double move = Math.Sqrt(first.Items[0].Information);
        Assert.Equal(StopReason.LittleToLearn, Find([], Best with { LeastChange = move * 1.001 }).Stop);
        Assert.Null(Find([], Best with { LeastChange = move * 0.999 }).Stop);
        Assert.Null(Find([], Best with { LeastChange = move * 1.001, AtLeast = 1 }).Stop);

        DiagnosticStep used = Find(Bank.Items.Select((i, n) => (i, n % 3 == 0)), Best with { AtMost = 40, AtLeast = 30 });
        Assert.Equal(StopReason.NothingLeft, used.Stop);
        Assert.Equal(24, used.Stock.Answered);
        Assert.Equal(0, used.Stock.Open);
    }

    [Fact]
    public void Neighbours_get_different_items_and_everybody_the_same_ones_again()
    {
        DiagnosticRules rules = Best with { AmongBest = 5, NearlyBest = 0 };
        string[] names = [.. Enumerable.Range(1, 30).Select(n => $"Person {n}")];
        BankItem[] first = [.. names.Select(n => Find([], rules, lot: n).Items[0].Item)];
        Assert.Equal(5, first.Distinct().Count());
        Assert.Equal(first, names.Select(n => Find([], rules, lot: n.ToUpperInvariant()).Items[0].Item));

        double best = Find([], Best).Items[0].Information;
        Assert.All(names, n => Assert.True(Find([], rules with { NearlyBest = 0.9 }, lot: n).Items[0].Information >= 0.9 * best));
    }

    [Fact]
    public void Levels_of_the_topics_that_matter_are_the_other_target()
    {
        DiagnosticRules rules = Best with { Target = DiagnosticTarget.Bands };
        DiagnosticStep step = Find([], rules, count: 3);
        Assert.NotEmpty(step.Levels);
        Assert.All(step.Levels, l => Assert.False(l.Level.Settled));

        // Three levels of a topic, each with the variance of its chance.
        double doubt = step.Levels.Sum(l => new[] { l.Level.Chances.Weak, l.Level.Chances.Borderline, l.Level.Chances.Strong }.Sum(p => p * (1 - p)));
        Assert.Equal(doubt, step.Doubt, 0.002);
        Assert.InRange(step.DoubtAfter, 0, 0.97 * step.Doubt);

        DiagnosticStep sure = Find(Bank.Items.Select(i => (i, true)).Take(23), rules with { AtMost = 40 });
        Assert.Equal(StopReason.Settled, sure.Stop);
        Assert.All(sure.Levels, l => Assert.True(l.Level.Settled));
    }

    [Fact]
    public void What_makes_no_sense_is_refused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Find([], Best, count: 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Find([], Best with { AmongBest = 0 }));
        ItemBank stranger = new([.. Bank.Items, new BankItem("Z", "z", ItemModel.Rasch, new ItemCurve(1, 0, 0))]);
        Assert.Throws<ArgumentException>(() => NextItemFinder.Find(Standing(Bank, []), stranger, GivenItems.None, Best, 1, ""));
    }

    [Fact]
    public void A_bank_of_topics_that_the_exam_does_not_score_has_nothing_left()
    {
        Exam exam = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 0));
        ItemBank bank = AdaptiveCases.Bank(exam, 2);
        ItemBank onB = new([.. bank.Items.Where(i => i.Topic == "B")]);
        CandidateStanding standing = StandingCalculator.Calculate(exam, [], SampleExams.Today);
        Assert.Equal(StopReason.NothingLeft, NextItemFinder.Find(standing, onB, GivenItems.None, Best, 1, "").Stop);
        Assert.Equal("A", NextItemFinder.Find(standing, bank, GivenItems.None, Best, 1, "").Items[0].Item.Topic);
    }

    [Fact]
    public void Any_exam_bank_and_answers_give_sound_figures()
        => Gen.Select(Generators.Cases, Gen.Int[1, 5], Gen.Int[0, 1000], Gen.Enum<DiagnosticTarget>()).Sample(
            (c, perTopic, seed, target) =>
            {
                ItemBank bank = AdaptiveCases.Bank(c.Exam, perTopic, seed);
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today, null, bank);
                DiagnosticStep step = NextItemFinder.Find(standing, bank, GivenItems.None, Best with { Target = target, AmongBest = 3 }, 4, $"{seed}");
                Assert.InRange(step.Pass.Mean, -1e-9, 1 + 1e-9);
                Assert.True(step.Pass.Low <= step.Pass.High);
                Assert.InRange(step.DoubtAfter, 0, step.Doubt);
                Assert.Equal(step.Items.Length, step.Items.Select(i => i.Item).Distinct().Count());
                Assert.All(step.Items, i =>
                {
                    Assert.InRange(i.ChanceRight, 1e-9, 1 - 1e-9);
                    Assert.InRange(i.Information, 0, 1);
                    Assert.InRange(i.PassIfRight, i.PassIfWrong - 1e-9, 1 + 1e-9);
                    Assert.InRange(i.PassIfWrong, -1e-9, 1);
                });
            },
            iter: 100);

    private static DiagnosticStep Find(IEnumerable<(BankItem Item, bool Right)> answers, DiagnosticRules rules, int count = 1, string lot = "Someone")
    {
        (BankItem Item, bool Right)[] all = [.. answers];
        return NextItemFinder.Find(Standing(Bank, all), Bank, Given(Bank, [.. all.Select(a => a.Item)]), rules, count, lot);
    }

    private static CandidateStanding Standing(ItemBank bank, IEnumerable<(BankItem Item, bool Right)> answers)
        => StandingCalculator.Calculate(Exam, [AdaptiveCases.Sitting([.. answers])], SampleExams.Today, null, bank);

    private static GivenItems Given(ItemBank bank, BankItem[] items)
        => GivenItems.Count(bank, [AdaptiveCases.Sitting([.. items.Select(i => (i, true))])], [], SampleExams.Today);
}
