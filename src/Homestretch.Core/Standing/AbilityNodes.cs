namespace Homestretch.Core.Standing;

/// <summary>Fewer nodes of a posterior's overall ability, for what is smooth in it.</summary>
internal static class AbilityNodes
{
    /// <summary>A regular part of a group's nodes, from the likeliest outwards. Together they weigh what the group does, however many of another group's are taken.</summary>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="group">The rate of learning whose nodes are looked at.</param>
    /// <param name="spacing">How far apart they may lie at most, in the group's standard deviations; the posterior's own spacing where that is wider.</param>
    /// <param name="negligible">Nodes lighter than this share of the heaviest are left out.</param>
    public static AbilityNode[] Some(AbilityPosterior posterior, RateGroup group, double spacing, double negligible)
    {
        ReadOnlySpan<double> nodes = posterior.Nodes.AsSpan(group.First, group.Count);
        ReadOnlySpan<double> weights = posterior.Weights.AsSpan(group.First, group.Count);
        double total = Spans.Sum(weights);
        int stride = 1;
        if (nodes.Length > 1)
        {
            double mean = Spans.Dot(nodes, weights) / total;
            double variance = 0;
            for (int k = 0; k < nodes.Length; k++)
            {
                double z = nodes[k] - mean;
                variance += weights[k] / total * z * z;
            }

            double step = nodes[1] - nodes[0];
            stride = Math.Max(1, (int)Math.Floor((spacing * Math.Sqrt(variance) / step) + 1e-9));
        }

        int mode = Spans.IndexOfMax(weights);
        double floor = negligible * weights[mode];
        List<AbilityNode> kept = [];
        double sum = 0;
        for (int k = mode % stride; k < nodes.Length; k += stride)
        {
            if (weights[k] > floor)
            {
                kept.Add(new(group.First + k, weights[k]));
                sum += weights[k];
            }
        }

        return [.. kept.Select(n => n with { Weight = n.Weight * total / sum })];
    }
}
