using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Splits the variance of the number of correct answers on the nodes of a <see cref="ScoreModel"/>.</summary>
/// <remarks>With learning rate R, ability A, form F, the exam's draw of items D, and X the count: Var(E[X|R]), then what knowing A adds, then F, then D; what is left is
/// the mean variance of X when all are known. A comprises the overall ability and the topics' abilities given it, which are independent.</remarks>
internal sealed class VarianceSplit(TopicMoments[] topics, Node[] abilities)
{
    private double mean;
    private double withRate;
    private double withAbility;
    private double withForm;
    private double withItems;
    private double chance;

    /// <summary>Adds what can happen at one rate of learning.</summary>
    /// <param name="conditions">That rate with every form; all have the same ability nodes.</param>
    /// <param name="shift">What is added to a topic's ability under a condition.</param>
    public void Add(IReadOnlyList<Condition> conditions, Func<Condition, int, double> shift)
    {
        double rateWeight = conditions.Sum(c => c.Weight);
        Range nodes = conditions[0].First..(conditions[0].First + conditions[0].Count);
        double[][] overForms = Array.ConvertAll(topics, t => new double[t.Points]);
        foreach (Condition condition in conditions)
        {
            (double[] Mean, double[] Square)[] chances = [.. topics.Select((topic, t) => topic.Chances(shift(condition, t)))];
            double[][] expected = Array.ConvertAll(chances, c => c.Mean);
            (double correct, double draw) = Means(nodes, expected, Array.ConvertAll(chances, c => c.Square), out double luck);
            withItems += condition.Weight * draw;
            withForm += condition.Weight * Means(nodes, expected, Squared(expected), out _).Square;
            chance += condition.Weight * luck;
            mean += condition.Weight * correct;
            for (int t = 0; t < topics.Length; t++)
            {
                Spans.AddScaled(expected[t], condition.Weight / rateWeight, overForms[t]);
            }
        }

        (double known, double square) = Means(nodes, overForms, Squared(overForms), out _);
        double nodeWeight = abilities[nodes].Sum(a => a.Weight);
        withAbility += rateWeight * square;
        withRate += rateWeight * known * known / nodeWeight;
    }

    /// <summary>The split of all that was added.</summary>
    /// <param name="learning">Whether the rate counts apart: without further study it matters through today's abilities only.</param>
    public ScoreUncertainty Split(bool learning)
    {
        double first = learning ? withRate : mean * mean;

        // Differences of mean squares: rounding leaves a trace where there is nothing.
        double trace = 1e-12 * withItems;
        double Part(double more, double less) => more - less > trace ? more - less : 0;
        return new ScoreUncertainty(Part(withAbility, first), Part(first, mean * mean), Part(withForm, withAbility), Part(withItems, withForm), chance);
    }

    private static double[][] Squared(double[][] values) => Array.ConvertAll(values, v => Array.ConvertAll(v, x => x * x));

    // Mean and mean square of the expected count over the abilities, where each topic's chance has these means and mean squares at each ability; luck: the mean variance beyond them.
    private (double Mean, double Square) Means(Range nodes, double[][] chances, double[][] squares, out double luck)
    {
        double mean = 0;
        double square = 0;
        luck = 0;
        (int from, int count) = nodes.GetOffsetAndLength(abilities.Length);
        for (int k = from; k < from + count; k++)
        {
            double total = 0;
            double spread = 0;
            for (int t = 0; t < topics.Length; t++)
            {
                double n = topics[t].Items;
                double expected = topics[t].At(k, chances[t]);
                double expectedSquare = topics[t].At(k, squares[t]);
                total += n * expected;
                spread += n * n * (expectedSquare - (expected * expected));
                luck += abilities[k].Weight * n * (expected - expectedSquare);
            }

            mean += abilities[k].Weight * total;
            square += abilities[k].Weight * (spread + (total * total));
        }

        return (mean, square);
    }
}
