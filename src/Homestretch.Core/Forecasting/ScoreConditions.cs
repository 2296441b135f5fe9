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
        foreach (RateGroup group in posterior.RateGroups)
        {
            Node[] own = group.Rate is { } known ? [new Node(known, 1)] : rates;
            foreach (AbilityNode node in AbilityNodes.Some(posterior, group, detail.AbilitySpacing, detail.NegligibleAbility))
            {
                foreach (Node form in forms)
                {
                    foreach (Node rate in own)
                    {
                        conditions.Add(new ScoreCondition(node.Weight * form.Weight * rate.Weight, form.At, rate.At, kept.Count));
                    }
                }

                kept.Add(node.Index);
            }
        }

        nodes = [.. kept];
        return [.. conditions];
    }

    /// <summary>Rates of learning where nothing is known of the person's, in logits per hour.</summary>
    public static Node[] Rates(LearningAssumptions learning, QuadratureDetail detail)
        => Array.ConvertAll(GaussHermite.Normal(learning.RateLogSd, detail.RateNodes), n => new Node(learning.RatePerHour * Math.Exp(n.At), n.Weight));
}
