using System.Collections.Immutable;

using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Adaptive;

/// <summary>Simulated people sit diagnostics of several designs; after every item the pass chance is compared with the true one.</summary>
/// <remarks>Everybody gives the same answer to an item in every design, and in all designs the answers count by the items' own curves, so that designs differ in nothing but the
/// choice of items. The simulated people follow the model; what the model gets wrong about real people is not in these figures.</remarks>
public static class AdaptiveStudy
{
    private const int Room = 20;

    private static readonly LocalDate _day = new(2000, 1, 1);

    /// <summary>Runs the study.</summary>
    /// <param name="bankItems">Items in the bank.</param>
    /// <param name="people">People, one or more.</param>
    /// <param name="length">Items of each diagnostic.</param>
    /// <param name="designs">Which designs to run.</param>
    /// <param name="seed">Same seed, same people, bank and figures.</param>
    /// <param name="cancellation">Stops the work between people.</param>
    public static ImmutableArray<StudyResult> Run(int bankItems, int people, int length, IReadOnlyList<Design> designs, int seed, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(designs);
        ItemBank bank = StudyCase.Bank(bankItems, seed);
        AbilityPosterior prior = StandingCalculator.PosteriorOf(StudyCase.Exam, [], _day, StandingAssumptions.Default, bank);
        PassByAbility pass = new(StudyCase.Exam, prior);
        Person[] room = [.. Enumerable.Range(0, people).Select(p => new Person(StudyCase.Exam, bank, prior, pass, new Random(Mix(seed, p))))];
        ParallelOptions options = new() { CancellationToken = cancellation };
        return [.. designs.Select(design =>
        {
            Sat[] sat = new Sat[people];
            BankItem[] best = design == Design.BestForm ? BestForm(bank, prior, length) : [];
            Parallel.For(0, (people + Room - 1) / Room, options, number =>
            {
                BankItem[] form = design == Design.BestForm ? best : RandomForm(bank, length, new Random(Mix(seed, -1 - number)));
                List<Attempt> others = [];
                for (int p = number * Room; p < Math.Min(people, (number + 1) * Room); p++)
                {
                    cancellation.ThrowIfCancellationRequested();
                    sat[p] = design is Design.RandomForm or Design.BestForm
                        ? SitForm(room[p], bank, form)
                        : Sit(room[p], bank, length, design, [.. design == Design.AdaptiveRoom ? others : []], $"person {p}");
                    others.Add(Answers(room[p], sat[p].Items, $"person {p}"));
                }
            });
            return Summarise(design, room, sat, length);
        })];
    }

    private static Sat SitForm(Person person, ItemBank bank, BankItem[] form)
        => new([.. Enumerable.Range(0, form.Length + 1).Select(n => PassChance(Posterior(person, bank, form[..n])))], [.. form], form.Length);

    private static Sat Sit(Person person, ItemBank bank, int length, Design design, ImmutableArray<Attempt> others, string name)
    {
        DiagnosticRules rules = design == Design.AdaptiveFree
            ? DiagnosticRules.Default with { AmongBest = 1, BlueprintSlack = length }
            : DiagnosticRules.Default;
        DiagnosticRules going = rules with { AtLeast = length + 1, AtMost = length + 1 };
        List<BankItem> items = [];
        List<double> chances = [];
        int? stopped = null;
        for (int n = 0; n < length; n++)
        {
            CandidateStanding standing = Standing(Posterior(person, bank, [.. items]));
            GivenItems given = GivenItems.Count(bank, [Answers(person, [.. items], name)], others, _day);
            DiagnosticStep step = NextItemFinder.Find(standing, bank, given, stopped is null ? rules : going, 1, name);
            if (step.Stop is not null)
            {
                stopped ??= n;
                step = NextItemFinder.Find(standing, bank, given, going, 1, name);
            }

            chances.Add(step.Pass.Mean);
            items.Add(step.Items.Length > 0 ? step.Items[0].Item : throw new InvalidOperationException($"The bank is used up after {n} items."));
        }

        chances.Add(PassChance(Posterior(person, bank, [.. items])));
        return new Sat([.. chances], [.. items], stopped ?? length);
    }

    private static BankItem[] BestForm(ItemBank bank, AbilityPosterior prior, int length)
    {
        DiagnosticRules rules = DiagnosticRules.Default with { AmongBest = 1, AtMost = length };
        return [.. NextItemFinder.Find(Standing(prior), bank, GivenItems.None, rules, length, "").Items.Select(i => i.Item)];
    }

    // Every stretch from the beginning keeps the blueprint's proportions as well as whole items can.
    private static BankItem[] RandomForm(ItemBank bank, int length, Random random)
    {
        Exam exam = StudyCase.Exam;
        Queue<BankItem>[] byTopic = [.. exam.Topics.Select(t =>
        {
            BankItem[] items = [.. bank.Items.Where(i => i.Topic == t.Name)];
            random.Shuffle(items);
            return new Queue<BankItem>(items);
        })];
        int[] given = new int[byTopic.Length];
        return [.. Enumerable.Range(1, length).Select(n =>
        {
            int topic = Enumerable.Range(0, given.Length).MaxBy(t => ((double)exam.Topics[t].Items / exam.ScoredItems * n) - given[t]);
            given[topic]++;
            return byTopic[topic].Dequeue();
        })];
    }

    private static Attempt Answers(Person person, IReadOnlyList<BankItem> items, string name)
        => new(name, "quick", AttemptKind.Diagnostic, _day, [.. items.Select(i => new ItemResponse(i.Topic, null, i.Item, person.Answer(i), null, null))]);

    private static AbilityPosterior Posterior(Person person, ItemBank bank, BankItem[] items)
        => StandingCalculator.PosteriorOf(StudyCase.Exam, items.Length == 0 ? [] : [Answers(person, items, "person")], _day, StandingAssumptions.Default, bank);

    // The search for the pass chance looks at the posterior alone; the figures for people would take as long again.
    private static CandidateStanding Standing(AbilityPosterior posterior) => new(StudyCase.Exam, _day, 0, [], [], posterior);

    private static double PassChance(AbilityPosterior posterior) => new ScoreModel(StudyCase.Exam, posterior).PassChance(new double[StudyCase.Exam.Topics.Length]);

    private static StudyResult Summarise(Design design, Person[] room, Sat[] sat, int length)
    {
        double Error(int person, int items)
        {
            double error = sat[person].PassChances[items] - room[person].PassChance;
            return error * error;
        }

        double[] means = [.. Enumerable.Range(0, length + 1).Select(n => Enumerable.Range(0, room.Length).Average(p => Error(p, n)))];
        return new StudyResult(
            design,
            [.. means],
            [.. means.Select((mean, n) => Math.Sqrt(Enumerable.Range(0, room.Length).Average(p => (Error(p, n) - mean) * (Error(p, n) - mean)) / room.Length))],
            sat.Average(s => s.StoppedAfter),
            Enumerable.Range(0, room.Length).Average(p => Error(p, sat[p].StoppedAfter)),
            Enumerable.Range(0, room.Length).Average(p => sat[p].PassChances[sat[p].StoppedAfter] > 0.5 == room[p].PassChance > 0.5 ? 1.0 : 0),
            sat.SelectMany(s => s.Items).CountBy(i => i).Max(c => c.Value) / (double)room.Length);
    }

    private static int Mix(int seed, int number) => unchecked((seed * 486187739) + (number * 16777619));
}
