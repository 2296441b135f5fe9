using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>The conditions over which outcomes are averaged.</summary>
internal static class ScoreConditions
{
    /// <summary>Every combination of kept ability nodes, forms and rates: the rates of the assumptions where nothing is known of the person's, their own where something is.</summary>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="learning">Assumptions on the rate of learning.</param>
    /// <param name="detail">How finely.</param>
    /// <param name="nodes">The posterior's nodes that are kept; a condition's node is an index into these.</param>
    public static ScoreCondition[] Of(AbilityPosterior posterior, LearningAssumptions learning, QuadratureDetail detail, out int[] nodes)
    {
        Node[] forms = GaussHermite.Normal(posterior.FormSd, detail.FormNodes);
        Node[] rates = Rates(learning, detail);
        List<int> kept = [];
        List<ScoreCondition> conditions = [];
        double total = 0;
        foreach (RateGroup group in posterior.RateGroups)
        {
            Node[] own = group.Rate is { } known ? [new Node(known, 1)] : rates;
            foreach (int node in Keep(posterior, group, detail))
            {
                foreach (Node form in forms)
                {
                    foreach (Node rate in own)
                    {
                        conditions.Add(new ScoreCondition(posterior.Weights[node] * form.Weight * rate.Weight, form.At, rate.At, kept.Count));
                    }
                }

                kept.Add(node);
                total += posterior.Weights[node];
            }
        }

        nodes = [.. kept];
        ScoreCondition[] all = [.. conditions];
        for (int c = 0; c < all.Length; c++)
        {
            all[c] = all[c] with { Weight = all[c].Weight / total };
        }

        return all;
    }

    /// <summary>Rates of learning where nothing is known of the person's, in logits per hour.</summary>
    public static Node[] Rates(LearningAssumptions learning, QuadratureDetail detail)
        => Array.ConvertAll(GaussHermite.Normal(learning.RateLogSd, detail.RateNodes), n => new Node(learning.RatePerHour * Math.Exp(n.At), n.Weight));

    /// <summary>The nodes of one group that count: a regular part of them, from the likeliest outwards.</summary>
    public static int[] Keep(AbilityPosterior posterior, RateGroup group, QuadratureDetail detail)
    {
        ReadOnlySpan<double> nodes = posterior.Nodes.AsSpan(group.First, group.Count);
        ReadOnlySpan<double> weights = posterior.Weights.AsSpan(group.First, group.Count);
        int stride = 1;
        if (nodes.Length > 1)
        {
            double total = Spans.Sum(weights);
            double mean = Spans.Dot(nodes, weights) / total;
            double variance = 0;
            for (int k = 0; k < nodes.Length; k++)
            {
                double z = nodes[k] - mean;
                variance += weights[k] / total * z * z;
            }

            double spacing = nodes[1] - nodes[0];
            stride = Math.Max(1, (int)Math.Floor((detail.AbilitySpacing * Math.Sqrt(variance) / spacing) + 1e-9));
        }

        int mode = Spans.IndexOfMax(weights);
        double floor = detail.NegligibleAbility * weights[mode];
        List<int> kept = [];
        for (int k = mode % stride; k < nodes.Length; k += stride)
        {
            if (weights[k] > floor)
            {
                kept.Add(group.First + k);
            }
        }

        return [.. kept];
    }
}
