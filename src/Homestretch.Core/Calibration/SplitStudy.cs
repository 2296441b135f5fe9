using System.Collections.Immutable;
using System.Runtime.ExceptionServices;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

using NodaTime;

namespace Homestretch.Core.Calibration;

/// <summary>Plays diagnostic and exam on one set of answers: half of the items, drawn at random within topics, is the diagnostic, the other half the exam.</summary>
/// <remarks>In each split priors are learned from a random half of the people, on the diagnostic's items only; the exam of the other half of the people is forecast.
/// Results are pooled over splits, because within one split the exam's items are easier or harder for everybody at once.</remarks>
public sealed class SplitStudy
{
    /// <summary>Fewer people than this say too little.</summary>
    public const int FewestPeople = 10;

    /// <summary>Priors are learned from half of the people where there are at least so many.</summary>
    public const int FewestToLearn = 2 * CohortPriorEstimator.FewestPersons;

    /// <summary>Fewer items of a section than this cannot be halved.</summary>
    public const int FewestItems = 4;

    private const int MostDraws = 200;
    private const string Diagnostic = "diagnostic";

    private static readonly LocalDate _day = new(2000, 1, 1);

    private readonly Exam _exam;
    private readonly SplitStudyOptions _options;
    private readonly bool[][] _right;
    private readonly int[] _topicOf;
    private readonly int[][] _itemsOf;
    private readonly double[] _guess;
    private readonly bool _learns;

    private SplitStudy(Exam exam, ItemScores answers, SplitStudyOptions options)
    {
        _exam = exam;
        _options = options;
        _right = [.. answers.Persons.Where(p => p.Complete).Select(p => p.Answers.Select(a => a.Credit == 1).ToArray())];
        Dictionary<string, int> places = exam.Topics.Select((t, i) => (t.Name, i)).ToDictionary(StringComparer.Ordinal);
        _topicOf = [.. answers.Items.Select(i => places.TryGetValue(i.Topic, out int place) ? place : throw new ArgumentException($"The exam has no topic '{i.Topic}'.", nameof(answers)))];
        _itemsOf = [.. exam.Topics.Select((_, t) => Enumerable.Range(0, _topicOf.Length).Where(i => _topicOf[i] == t).ToArray())];
        _guess = [.. exam.Topics.Select(t => t.Section.GuessChance)];
        _learns = _right.Length >= FewestToLearn;
        Refuse();
    }

    /// <summary>Runs the study on all processors.</summary>
    /// <param name="exam">The exam: its topics, and its rule, which each half keeps with the same shares of its items as marks.</param>
    /// <param name="answers">Answers item by item; people who were not given every item are left out, blanks count as wrong.</param>
    /// <param name="options">How many splits, from which seed.</param>
    /// <param name="progress">Told the splits done.</param>
    /// <param name="cancellation">Stops the work between splits.</param>
    /// <exception cref="ArgumentException">An item names a topic that the exam does not have.</exception>
    /// <exception cref="UnsuitableDataException">There are too few people or items to split; the message says which.</exception>
    public static SplitStudyResult Run(Exam exam, ItemScores answers, SplitStudyOptions options, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(answers);
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(options.Splits, nameof(options));
        SplitStudy study = new(exam, answers, options);
        SplitForecast[][] bySplit = new SplitForecast[options.Splits][];
        int done = 0;
        try
        {
            Parallel.For(0, options.Splits, new ParallelOptions { CancellationToken = cancellation }, split =>
            {
                bySplit[split] = study.OneSplit(split);
                progress?.Report(Interlocked.Increment(ref done));
            });
        }
        catch (AggregateException e) when (e.InnerExceptions.OfType<UnsuitableDataException>().Any())
        {
            ExceptionDispatchInfo.Throw(e.InnerExceptions.OfType<UnsuitableDataException>().First());
        }

        return SplitStudyResult.Of(options, study._right.Length, answers.Items.Length, study._learns, [.. bySplit.SelectMany(s => s)]);
    }

    private void Refuse()
    {
        if (_right.Length < FewestPeople)
        {
            throw new UnsuitableDataException($"{(_right.Length == 1 ? "Only 1 person was" : $"Only {_right.Length} people were")} given every item; a split needs at least {FewestPeople}.");
        }

        for (int s = 0; s < _exam.Sections.Length; s++)
        {
            int items = Enumerable.Range(0, _itemsOf.Length).Where(t => _exam.Topics[t].SectionIndex == s).Sum(t => _itemsOf[t].Length);
            if (items < FewestItems)
            {
                throw new UnsuitableDataException($"The test has {items} items of the section '{_exam.Sections[s].Name}'; a split needs at least {FewestItems} of each.");
            }
        }
    }

    private SplitForecast[] OneSplit(int split)
    {
        SplitMix random = SplitMix.For(_options.Seed, split);
        for (int draw = 0; draw < MostDraws; draw++)
        {
            (int[] diagnostic, int[] exam) = SplitItems(random);
            int[] people = [.. Enumerable.Range(0, _right.Length)];
            random.Shuffle(people);
            int learners = _learns ? people.Length / 2 : 0;
            if (HasEverySection(diagnostic) && HasEverySection(exam) && (!_learns || CanLearn(diagnostic, people[..learners])))
            {
                StandingAssumptions assumptions = _learns ? Learn(diagnostic, exam, people[..learners]) : StandingAssumptions.Default;
                return Forecast(split, diagnostic, exam, people[learners..], assumptions, random);
            }
        }

        throw new UnsuitableDataException("On some topic nearly all answers are alike, so that halves of the test say nothing about how people differ on it.");
    }

    private SplitForecast[] Forecast(int split, int[] diagnostic, int[] exam, int[] people, StandingAssumptions assumptions, SplitMix random)
    {
        Exam tested = TestedExam.Of(_exam, Counts(exam));
        PassRule[] rules = _options.TotalPercents.IsEmpty
            ? [new PassRule(tested)]
            : [.. _options.TotalPercents.Select(p => PassRule.OfTotal(tested, new PercentCut(p)))];
        int[] items = Counts(diagnostic);
        List<SplitForecast> forecasts = new(people.Length);
        foreach (IGrouping<string, int> alike in people.GroupBy(p => string.Join(' ', RightByTopic(p, diagnostic))))
        {
            int[] right = RightByTopic(alike.First(), diagnostic);
            ImmutableArray<Observation> counts =
                [.. Enumerable.Range(0, items.Length).Where(t => items[t] > 0).Select(t => (Observation)TopicCount.Exact(_exam.Topics[t].Name, right[t], items[t]))];
            AbilityPosterior posterior = StandingCalculator.PosteriorOf(tested, [new Attempt("person", Diagnostic, AttemptKind.Diagnostic, _day, counts)], _day, assumptions);
            ScoreOutcome outcome = new ScoreModel(tested, posterior).Outcome(new double[tested.Topics.Length]);
            double[] chances = _options.TotalPercents.IsEmpty
                ? [outcome.PassChance]
                : Array.ConvertAll(rules, r => Math.Clamp(PassRule.Tail([.. outcome.Total], r.Total), 0, 1));
            double[][] plainSections = PlainShare(tested, right, items);
            double[] plain = Array.ConvertAll(rules, r => r.PassChance(plainSections));
            foreach (int person in alike)
            {
                int[] sections = BySection(RightByTopic(person, exam));
                int correct = sections.Sum();
                double pit = outcome.Total.Take(correct).Sum() + (random.NextDouble() * outcome.Total[correct]);
                forecasts.Add(new SplitForecast(person, split, chances, plain, Array.ConvertAll(rules, r => r.Passes(sections)), pit));
            }
        }

        return [.. forecasts];
    }

    private (int[] Diagnostic, int[] Exam) SplitItems(SplitMix random)
    {
        List<int> diagnostic = [];
        List<int> exam = [];
        foreach (int[] topic in _itemsOf)
        {
            int[] items = [.. topic];
            random.Shuffle(items);

            // An odd item goes to either side by lot.
            int half = (items.Length + random.Below(2)) / 2;
            diagnostic.AddRange(items[..half]);
            exam.AddRange(items[half..]);
        }

        return ([.. diagnostic], [.. exam]);
    }

    private bool HasEverySection(int[] items) => items.Select(i => _exam.Topics[_topicOf[i]].SectionIndex).Distinct().Count() == _exam.Sections.Length;

    // A topic on which all answers are alike says nothing about its spread.
    private bool CanLearn(int[] items, int[] people)
        => items.GroupBy(i => _topicOf[i]).All(topic =>
        {
            int right = people.Sum(p => topic.Count(i => _right[p][i]));
            return right > 0 && right < people.Length * topic.Count();
        });

    private StandingAssumptions Learn(int[] diagnostic, int[] exam, int[] people)
    {
        CohortCounts test = Cohort(Diagnostic, diagnostic, people);
        CohortPrior prior = CohortPriorEstimator.Estimate(test);
        StandingAssumptions basis = StandingAssumptions.Default with { FormSd = 0, OfficialFormSd = 0 };
        return _options.ExamSatBefore
            ? prior.ToAssumptions(basis, test, Cohort("exam", exam, people))
            : prior.ToAssumptions(basis, _exam.Topics.Select(t => t.Name).Except(test.Topics));
    }

    private CohortCounts Cohort(string name, int[] items, int[] people)
    {
        int[] all = Counts(items);
        int[] topics = [.. Enumerable.Range(0, all.Length).Where(t => all[t] > 0)];
        int[] answered = [.. topics.Select(t => all[t])];
        return new CohortCounts(
            name,
            [.. topics.Select(t => _exam.Topics[t].Name)],
            [.. topics.Select(t => _guess[t])],
            [.. people.Select(p => RightByTopic(p, items)).Select(right => topics.Select(t => right[t]).ToArray())],
            [.. people.Select(_ => answered)])
        {
            ItemShares = [.. topics.Select(t => items.Where(i => _topicOf[i] == t).Select(i => people.Count(p => _right[p][i]) / (double)people.Length).ToArray())],
        };
    }

    // Chances of each count per section if every item were answered right with the share seen: the section's own share where sections decide.
    private double[][] PlainShare(Exam tested, int[] right, int[] items)
    {
        int[] rightOf = BySection(right);
        int[] itemsOf = BySection(items);
        return
        [
            .. tested.Sections.Select((section, s) =>
            {
                double share = tested.Rule == OverallRule.Total || !_options.TotalPercents.IsEmpty ? (double)right.Sum() / items.Sum() : (double)rightOf[s] / itemsOf[s];
                return Enumerable.Range(0, section.ScoredItems + 1).Select(k => Binomial.PMF(share, section.ScoredItems, k)).ToArray();
            }),
        ];
    }

    private int[] Counts(int[] items)
    {
        int[] counts = new int[_itemsOf.Length];
        foreach (int item in items)
        {
            counts[_topicOf[item]]++;
        }

        return counts;
    }

    private int[] RightByTopic(int person, int[] items)
    {
        int[] right = new int[_itemsOf.Length];
        foreach (int item in items)
        {
            right[_topicOf[item]] += _right[person][item] ? 1 : 0;
        }

        return right;
    }

    private int[] BySection(int[] byTopic)
    {
        int[] sums = new int[_exam.Sections.Length];
        for (int t = 0; t < byTopic.Length; t++)
        {
            sums[_exam.Topics[t].SectionIndex] += byTopic[t];
        }

        return sums;
    }
}
