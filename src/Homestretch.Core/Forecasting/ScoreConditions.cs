using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>The conditions over which outcomes are averaged.</summary>
internal static class ScoreConditions
{
    /// <summary>Every combination of kept ability nodes, forms and rates.</summary>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="learning">Assumptions on the rate of learning.</param>
    /// <param name="detail">How finely.</param>
    /// <param name="nodes">The posterior's nodes that are kept; a condition's node is an index into these.</param>
    public static ScoreCondition[] Of(AbilityPosterior posterior, LearningAssumptions learning, QuadratureDetail detail, out int[] nodes)
    {
        int[] kept = Keep(posterior, detail);
        double keptWeight = kept.Sum(k => posterior.Weights[k]);
        Node[] forms = GaussHermite.Normal(posterior.FormSd, detail.FormNodes);
        Node[] rates = GaussHermite.Normal(learning.RateLogSd, detail.RateNodes);
        List<ScoreCondition> conditions = new(kept.Length * forms.Length * rates.Length);
        for (int k = 0; k < kept.Length; k++)
        {
            foreach (Node form in forms)
            {
                conditions.AddRange(rates.Select(rate => new ScoreCondition(
                    posterior.Weights[kept[k]] / keptWeight * form.Weight * rate.Weight, form.At, learning.RatePerHour * Math.Exp(rate.At), k)));
            }
        }

        nodes = kept;
        return [.. conditions];
    }

    private static int[] Keep(AbilityPosterior posterior, QuadratureDetail detail)
    {
        int stride = 1;
        if (posterior.Nodes.Length > 1)
        {
            double mean = posterior.MeanAbility;
            double variance = 0;
            for (int k = 0; k < posterior.Nodes.Length; k++)
            {
                double z = posterior.Nodes[k] - mean;
                variance += posterior.Weights[k] * z * z;
            }

            double spacing = posterior.Nodes[1] - posterior.Nodes[0];
            stride = Math.Max(1, (int)Math.Floor((detail.AbilitySpacing * Math.Sqrt(variance) / spacing) + 1e-9));
        }

        int mode = Spans.IndexOfMax(posterior.Weights.AsSpan());
        double floor = detail.NegligibleAbility * posterior.Weights[mode];
        return [.. Enumerable.Range(0, posterior.Nodes.Length).Where(k => (k - mode) % stride == 0 && posterior.Weights[k] > floor)];
    }
}
