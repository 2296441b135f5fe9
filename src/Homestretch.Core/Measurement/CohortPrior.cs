using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>What a cohort's results on one test say about people of its kind, in place of the documented defaults.</summary>
/// <param name="Test">The test's name.</param>
/// <param name="Persons">People it was estimated from.</param>
/// <param name="AbilitySd">Spread of overall ability between people, with its standard error.</param>
/// <param name="TopicSd">Spread of one person's topics about their overall ability, with its standard error.</param>
/// <param name="TopicMeans">Mean ability per topic (logits), on the scale of that test's own items.</param>
/// <param name="ItemSpread">Spread in difficulty of single items within a topic; 0 where only counts are known.</param>
/// <param name="Items">Items per topic in that test.</param>
/// <param name="LogLikelihood">Log-likelihood at the maximum.</param>
public sealed record CohortPrior(
    string Test,
    int Persons,
    Estimate AbilitySd,
    Estimate TopicSd,
    ImmutableDictionary<string, Estimate> TopicMeans,
    double ItemSpread,
    ImmutableDictionary<string, int> Items,
    double LogLikelihood)
{
    // Topics of one exam differ in difficulty for everybody by about this much beyond their items' chance, in logits; it counts like so many topics (assumptions).
    private const double UsualTopicSpread = 0.5;
    private const int UsualTopics = 4;
    private const double LargestErrorVariance = 4;

    /// <summary>Mean of the topics' mean abilities, each counted by how surely it is known.</summary>
    /// <remarks>Its standard error: the people are the same on all topics, so that part of every topic's error which is theirs (the variance of overall ability over their number) does
    /// not average out; the rest does.</remarks>
    public Estimate MeanAbility
    {
        get
        {
            double weight = Topics.Sum(t => 1 / (Square(UsualTopicSpread) + ChanceVariance(t)));
            double Share(string topic) => 1 / (Square(UsualTopicSpread) + ChanceVariance(topic)) / weight;
            double people = Square(AbilitySd.Value) / Persons;
            double own = Topics.Sum(t => Square(Share(t)) * Math.Max(0, ErrorVariance(t) - people));
            return new Estimate(Topics.Sum(t => TopicMeans[t].Value * Share(t)), Math.Sqrt(people + own));
        }
    }

    /// <summary>The model's assumptions with these estimates in the place of the defaults.</summary>
    /// <param name="basis">What is still assumed of all that a cohort's one test cannot show, such as how far practice tests as a whole differ from the exam.</param>
    /// <param name="otherTopics">Topics of the exam that the test has no items of.</param>
    /// <remarks>A topic's mean on the cohort's test is partly the topic (which the exam shares) and partly the chance of its few items (which the exam does not). The exam's
    /// level is therefore expected nearer to the mean of all topics, as far as the items' share of the variance says (regression to the mean), and the rest of that variance is kept.</remarks>
    public StandingAssumptions ToAssumptions(StandingAssumptions basis, params IEnumerable<string> otherTopics)
    {
        ArgumentNullException.ThrowIfNull(basis);
        StandingAssumptions learned = Learned(basis);
        double mean = MeanAbility.Value;
        if (ItemSpread <= 0)
        {
            return learned;
        }

        double topicVariance = TopicVariance();
        double ItemsShare(string topic) => ChanceVariance(topic) / (topicVariance + ChanceVariance(topic));

        // The mean of all topics is itself uncertain, and that uncertainty is common to them.
        double meanVariance = 1 / Topics.Sum(t => 1 / (topicVariance + ChanceVariance(t)));
        double common = Square(Topics.Average(ItemsShare)) * meanVariance;
        return learned with
        {
            FormSd = Math.Sqrt(Square(basis.FormSd) + common),
            OfficialFormSd = Math.Sqrt(Square(basis.OfficialFormSd) + common),
            TopicFormSd = 0,
            ItemSpread = ItemSpread,
            ExamShifts = TopicMeans.ToImmutableDictionary(m => m.Key, m => ItemsShare(m.Key) * (mean - m.Value.Value)),
            ExamShiftSds = TopicMeans.Keys
                .Select(t => KeyValuePair.Create(t, Math.Sqrt(topicVariance * ItemsShare(t))))
                .Concat(otherTopics.Select(t => KeyValuePair.Create(t, Math.Sqrt(topicVariance))))
                .ToImmutableDictionary(),
        };
    }

    /// <summary>The model's assumptions where the same people have taken the exam too: how hard its topics are is then known, and not only expected.</summary>
    /// <param name="basis">What is still assumed of all that results cannot show.</param>
    /// <param name="test">The people's results on the test that these priors come from.</param>
    /// <param name="exam">The same people's results on the exam, in the same order.</param>
    /// <remarks>For each topic, the shift at which people of this mean and spread reach the share correct that was seen on the exam. Its standard error is the delta method's, with both scores of each person,
    /// since the same people took both tests. The exam to come is taken to be the one that was sat.</remarks>
    public StandingAssumptions ToAssumptions(StandingAssumptions basis, CohortCounts test, CohortCounts exam)
    {
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(test);
        ArgumentNullException.ThrowIfNull(exam);
        StandingAssumptions learned = Learned(basis);
        Dictionary<string, Estimate> shifts = [];
        for (int t = 0; t < exam.Topics.Length; t++)
        {
            string topic = exam.Topics[t];
            int same = test.Topics.IndexOf(topic);
            ExpectedShare expected = new(exam.Guess[t], MeanAbility.Value, Math.Sqrt(Square(AbilitySd.Value) + Square(TopicSd.Value)));
            double[] onExam = exam.Shares(t);
            double own = learned.TopicShifts.GetValueOrDefault(topic);
            double level = expected.ShiftFor(onExam.Average());
            double[] onTest = same < 0 ? new double[onExam.Length] : test.Shares(same);
            double slope = expected.Slope(level);
            double slopeOnTest = same < 0 ? double.PositiveInfinity : expected.Slope(own);
            double squares = onExam.Zip(onTest, (x, y) => Square(((x - onExam.Average()) / slope) - ((y - onTest.Average()) / slopeOnTest))).Sum();
            shifts.Add(topic, new Estimate(level - own, Math.Sqrt(squares / onExam.Length / Math.Max(1, onExam.Length - 1))));
        }

        return learned with
        {
            TopicFormSd = 0,
            ExamShifts = shifts.ToImmutableDictionary(s => s.Key, s => s.Value.Value),
            ExamShiftSds = shifts.ToImmutableDictionary(s => s.Key, s => s.Value.StandardError),
        };
    }

    private StandingAssumptions Learned(StandingAssumptions basis)
    {
        double mean = MeanAbility.Value;
        return basis with
        {
            LearnedOn = Test,
            MeanAbility = mean,
            AbilitySd = AbilitySd.Value,
            TopicSd = TopicSd.Value,
            TopicShifts = TopicMeans.ToImmutableDictionary(m => m.Key, m => m.Value.Value - mean),
        };
    }

    // A dictionary's own order changes from run to run, and with it the last digit of a sum.
    private IEnumerable<string> Topics => TopicMeans.Keys.Order(StringComparer.Ordinal);

    // What is not the topic's own: the chance of its few items, and the error of the estimate.
    private double ChanceVariance(string topic)
        => (ItemSpread * ItemSpread / Math.Max(1, Items[topic])) + ErrorVariance(topic);

    private double ErrorVariance(string topic) => Math.Min(LargestErrorVariance, Square(TopicMeans[topic].StandardError));

    private double TopicVariance()
    {
        double mean = MeanAbility.Value;
        double own = Topics.Sum(t => Square(TopicMeans[t].Value - mean) - ChanceVariance(t));
        return (Math.Max(0, own) + (UsualTopics * Square(UsualTopicSpread))) / (TopicMeans.Count - 1 + UsualTopics);
    }

    private static double Square(double value) => value * value;
}
