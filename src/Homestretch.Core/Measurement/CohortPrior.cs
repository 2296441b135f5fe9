using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>What a cohort's results on one test say about people of its kind, in place of the documented defaults.</summary>
/// <param name="Persons">People it was estimated from.</param>
/// <param name="AbilitySd">Spread of overall ability between people, with its standard error.</param>
/// <param name="TopicSd">Spread of one person's topics about their overall ability, with its standard error.</param>
/// <param name="TopicMeans">Mean ability per topic (logits), on the scale of that test's own items.</param>
/// <param name="ItemSpread">Spread in difficulty of single items within a topic; 0 where only counts are known.</param>
/// <param name="Items">Items per topic in that test.</param>
/// <param name="LogLikelihood">Log-likelihood at the maximum.</param>
public sealed record CohortPrior(
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
    public double MeanAbility
    {
        get
        {
            double weight = TopicMeans.Keys.Sum(t => 1 / (Square(UsualTopicSpread) + ChanceVariance(t)));
            return TopicMeans.Sum(m => m.Value.Value / (Square(UsualTopicSpread) + ChanceVariance(m.Key))) / weight;
        }
    }

    /// <summary>The model's assumptions with these estimates in the place of the defaults.</summary>
    /// <param name="formSd">What is still assumed about tests as a whole: see <see cref="StandingAssumptions.FormSd"/>.</param>
    /// <remarks>A topic's mean on the cohort's test is partly the topic (which the exam shares) and partly the chance of its few items (which the exam does not). The exam's
    /// level is therefore expected nearer to the mean of all topics, as far as the items' share of the variance says (regression to the mean), and the rest of that variance is kept.</remarks>
    public StandingAssumptions ToAssumptions(double formSd)
    {
        if (ItemSpread <= 0)
        {
            return Learned(formSd);
        }

        double topicVariance = TopicVariance();
        double ItemsShare(string topic) => ChanceVariance(topic) / (topicVariance + ChanceVariance(topic));

        // The mean of all topics is itself uncertain, and that uncertainty is common to them.
        double meanVariance = 1 / TopicMeans.Keys.Sum(t => 1 / (topicVariance + ChanceVariance(t)));
        double common = TopicMeans.Keys.Average(ItemsShare);
        return Learned(Math.Sqrt((formSd * formSd) + (common * common * meanVariance))) with
        {
            TopicFormSd = 0,
            ItemSpread = ItemSpread,
            ExamShifts = TopicMeans.ToImmutableDictionary(m => m.Key, m => ItemsShare(m.Key) * (MeanAbility - m.Value.Value)),
            ExamShiftSds = TopicMeans.Keys.ToImmutableDictionary(t => t, t => Math.Sqrt(topicVariance * ItemsShare(t))),
        };
    }

    private StandingAssumptions Learned(double formSd) => StandingAssumptions.Default with
    {
        MeanAbility = MeanAbility,
        AbilitySd = AbilitySd.Value,
        TopicSd = TopicSd.Value,
        TopicShifts = TopicMeans.ToImmutableDictionary(m => m.Key, m => m.Value.Value - MeanAbility),
        FormSd = formSd,
        OfficialFormSd = formSd,
    };

    // What is not the topic's own: the chance of its few items, and the error of the estimate.
    private double ChanceVariance(string topic)
        => (ItemSpread * ItemSpread / Math.Max(1, Items[topic])) + Math.Min(LargestErrorVariance, Square(TopicMeans[topic].StandardError));

    private double TopicVariance()
    {
        double own = TopicMeans.Sum(m => Square(m.Value.Value - MeanAbility) - ChanceVariance(m.Key));
        return (Math.Max(0, own) + (UsualTopics * Square(UsualTopicSpread))) / (TopicMeans.Count - 1 + UsualTopics);
    }

    private static double Square(double value) => value * value;
}
