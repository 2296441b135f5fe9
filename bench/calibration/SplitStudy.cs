using System.Collections.Concurrent;
using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Calibration;

/// <summary>Plays diagnostic and exam on one set of real answers: half of the items, drawn at random within topics, is the diagnostic, the other half the exam.</summary>
/// <remarks>In each split priors are learned from a random half of the people, on the diagnostic's items only; the exam of the other half of the people is forecast.
/// Results are pooled over splits, because within one split the exam's items are easier or harder for everybody at once.</remarks>
public static class SplitStudy
{
    /// <summary>Runs the study.</summary>
    /// <param name="data">Complete answers.</param>
    /// <param name="splits">Random splits, one or more.</param>
    /// <param name="cutPercents">Cut scores to forecast, in percent of the exam's items.</param>
    /// <param name="seed">Same seed, same splits.</param>
    /// <param name="progress">Told the splits done.</param>
    /// <param name="cancellation">Stops the work between splits.</param>
    public static SplitStudyResult Run(
        ScoredItems data,
        int splits,
        ImmutableArray<double> cutPercents,
        int seed,
        IProgress<int>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(data);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(splits);
        if (data.Answers.Any(a => a.Any(x => x is null)))
        {
            throw new ArgumentException("A split study needs an answer from everybody to every item.", nameof(data));
        }

        ConcurrentDictionary<int, List<SplitForecast>> results = new();
        int done = 0;
        Parallel.For(0, splits, new ParallelOptions { CancellationToken = cancellation }, split =>
        {
            results[split] = OneSplit(data, new Random(Mix(seed, split)));
            progress?.Report(Interlocked.Increment(ref done));
        });
        List<SplitForecast> all = [.. Enumerable.Range(0, splits).SelectMany(s => results[s])];
        return SplitStudyResult.Of(all, cutPercents, seed);
    }

    private static int Mix(int seed, int split) => unchecked((seed * 486187739) + (split * 16777619));

    private static List<SplitForecast> OneSplit(ScoredItems data, Random random)
    {
        (int[] diagnostic, int[] exam) = SplitItems(data, random);
        int[] people = [.. Enumerable.Range(0, data.Answers.Length)];
        random.Shuffle(people);
        int[] learnFrom = people[..(people.Length / 2)];
        int[] forecast = people[(people.Length / 2)..];

        string[] topics = [.. data.Topics.Distinct()];
        double[] guess = [.. topics.Select(t => data.Guess[data.Topics.IndexOf(t)])];
        StandingAssumptions assumptions = Learn(data, diagnostic, learnFrom, topics, guess);
        Exam blueprint = Blueprint(data, exam, topics, guess);
        LocalDate day = new(2000, 1, 1);
        List<SplitForecast> forecasts = [];
        foreach (IGrouping<string, int> alike in forecast.GroupBy(p => string.Join(' ', topics.Select(t => Right(data, p, diagnostic, t)))))
        {
            int first = alike.First();
            ImmutableArray<Observation> counts =
                [.. topics.Select(t => (Observation)TopicCount.Exact(t, Right(data, first, diagnostic, t), diagnostic.Count(i => data.Topics[i] == t))).Where(c => c.ItemCount > 0)];
            AbilityPosterior posterior = StandingCalculator.PosteriorOf(blueprint, [new Attempt("person", "diagnostic", AttemptKind.Diagnostic, day, counts)], day, assumptions);
            ScoreOutcome outcome = new ScoreModel(blueprint, posterior).Outcome(new double[blueprint.Topics.Length]);
            int right = diagnostic.Count(i => data.Answers[first][i] == true);
            double[] raw = [.. Enumerable.Range(0, exam.Length + 1).Select(k => MathNet.Numerics.Distributions.Binomial.PMF((double)right / diagnostic.Length, exam.Length, k))];
            forecasts.AddRange(alike.Select(p => new SplitForecast([.. outcome.Total], raw, exam.Count(i => data.Answers[p][i] == true), random.NextDouble())));
        }

        return forecasts;
    }

    private static (int[] Diagnostic, int[] Exam) SplitItems(ScoredItems data, Random random)
    {
        List<int> diagnostic = [];
        List<int> exam = [];
        foreach (IGrouping<string, int> topic in Enumerable.Range(0, data.Items).GroupBy(i => data.Topics[i]))
        {
            int[] items = [.. topic];
            random.Shuffle(items);

            // An odd item goes to either side by lot.
            int half = (items.Length + random.Next(2)) / 2;
            diagnostic.AddRange(items[..half]);
            exam.AddRange(items[half..]);
        }

        return ([.. diagnostic], [.. exam]);
    }

    private static StandingAssumptions Learn(ScoredItems data, int[] items, int[] people, string[] topics, double[] guess)
    {
        CohortCounts cohort = new(
            [.. topics],
            [.. guess],
            [.. people.Select(p => topics.Select(t => Right(data, p, items, t)).ToArray())],
            [.. people.Select(_ => topics.Select(t => items.Count(i => data.Topics[i] == t)).ToArray())]);
        CohortPrior first = CohortPriorEstimator.Estimate(cohort);
        double topicSd = Math.Sqrt((first.AbilitySd.Value * first.AbilitySd.Value) + (first.TopicSd.Value * first.TopicSd.Value));
        double[][] shares =
            [.. topics.Select(t => items.Where(i => data.Topics[i] == t).Select(i => people.Count(p => data.Answers[p][i] == true) / (double)people.Length).ToArray())];
        double spread = CohortPriorEstimator.ItemSpreadOf(shares, people.Length, guess, topicSd);
        return (first with { ItemSpread = spread }).ToAssumptions(formSd: 0);
    }

    private static Exam Blueprint(ScoredItems data, int[] exam, string[] topics, double[] guess)
    {
        // One section per chance of guessing; only the total counts.
        ImmutableArray<Section> sections =
        [
            .. topics.Select((name, t) => (Name: name, Guess: guess[t], Items: exam.Count(i => data.Topics[i] == name)))
                .Where(t => t.Items > 0)
                .GroupBy(t => t.Guess)
                .Select(g => new Section(
                    $"Guessing {g.Key:F3}",
                    g.Sum(t => t.Items),
                    0,
                    null,
                    g.Key == 0 ? 0 : (int)Math.Round(1 / g.Key),
                    null,
                    [.. g.Select(t => new Topic(t.Name, Weight.Items(t.Items), t.Items, []))])),
        ];
        return new Exam("Split study", null, null, sections, OverallRule.Total, new CorrectCut(1), null, BandEdges.Default);
    }

    private static int Right(ScoredItems data, int person, int[] items, string topic)
        => items.Count(i => data.Topics[i] == topic && data.Answers[person][i] == true);
}
