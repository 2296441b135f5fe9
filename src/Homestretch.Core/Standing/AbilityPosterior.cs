using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Standing;

/// <summary>The joint posterior of a person's abilities: one on each topic, tied together by an overall ability.</summary>
/// <remarks>Topic abilities are normal about the overall ability mu. Given mu they are independent, so the posterior is kept as
/// nodes of mu with weights and, for each node and topic, a density on the ability grid. No sampling is involved.</remarks>
public sealed class AbilityPosterior
{
    // Nodes of mu lie this far apart in posterior standard deviations; with normal-like tails the trapezoidal rule is then good to 1e-9.
    private const double NodeSpacingInSds = 0.4;
    private const double WidestNodeSpacing = 0.1;
    private const double NegligibleNode = 1e-10;
    private const double NegligibleDensity = 1e-13;

    // Stands for what underflows, so that a topic's part can be taken out of the whole again.
    private const double Smallest = 1e-300;

    private readonly ImmutableArray<ConditionalAbility[]> conditionals;
    private readonly double[] overallLogs;
    private readonly double[][] topicLogs;

    private AbilityPosterior(
        AbilityGrid grid,
        double[] overallLogs,
        double[][] topicLogs,
        double[] nodes,
        double[] weights,
        ImmutableArray<ConditionalAbility[]> conditionals,
        ImmutableArray<ResponseCurve> curves,
        ImmutableArray<RateGroup> rateGroups,
        double formSd,
        StandingAssumptions assumptions)
    {
        this.overallLogs = overallLogs;
        this.topicLogs = topicLogs;
        Grid = grid;
        Nodes = [.. nodes];
        Weights = [.. weights];
        this.conditionals = conditionals;
        Curves = curves;
        RateGroups = rateGroups;
        FormSd = formSd;
        Assumptions = assumptions;
    }

    /// <summary>Abilities at which densities are given.</summary>
    public AbilityGrid Grid { get; }

    /// <summary>Nodes of the overall ability mu (without study), ascending within each of <see cref="RateGroups"/>.</summary>
    public ImmutableArray<double> Nodes { get; }

    /// <summary>The nodes by rate of learning, slowest first: one group without a rate where the person is not known to have studied.</summary>
    public ImmutableArray<RateGroup> RateGroups { get; }

    /// <summary>Posterior weight of each node; they sum to 1.</summary>
    public ImmutableArray<double> Weights { get; }

    /// <summary>Response curve of each topic, in the order of <see cref="Exam.Topics"/>.</summary>
    public ImmutableArray<ResponseCurve> Curves { get; }

    /// <summary>Standard deviation of the difference in difficulty between the tests seen and the exam to come, in logits.</summary>
    public double FormSd { get; }

    /// <summary>What was taken for granted.</summary>
    public StandingAssumptions Assumptions { get; }

    /// <summary>Posterior mean of the overall ability, in logits.</summary>
    public double MeanAbility => Spans.Dot(Nodes.AsSpan(), Weights.AsSpan());

    /// <summary>Response curve of the exam's items on a topic: the topic's own, moved by what a cohort lets expect of fresh items.</summary>
    internal ResponseCurve ExamCurve(int topic, string name)
        => Curves[topic] with { Shift = Curves[topic].Shift + Assumptions.ExamShifts.GetValueOrDefault(name) };

    /// <summary>Spread of what <see cref="ExamCurve"/> leaves open, before the exam's own draw of items.</summary>
    internal double ExamShiftSd(string name) => Assumptions.ExamShiftSds.GetValueOrDefault(name);

    /// <summary>Density of one topic's ability given one node of mu.</summary>
    public ConditionalAbility Conditional(int topic, int node) => conditionals[topic][node];

    /// <summary>Posterior of one topic's ability over the whole grid; sums to 1.</summary>
    public double[] Marginal(int topic)
    {
        double[] marginal = new double[Grid.Count];
        for (int k = 0; k < Nodes.Length; k++)
        {
            ConditionalAbility conditional = conditionals[topic][k];
            Span<double> target = marginal.AsSpan(conditional.Start, conditional.Density.Length);
            Spans.AddScaled(conditional.Density.AsSpan(), Weights[k], target);
        }

        return marginal;
    }

    /// <summary>Posterior of one topic's ability if its own evidence said <paramref name="likelihood"/> instead; sums to 1 over the grid.</summary>
    /// <remarks>Where study is known: of the ability without study, at the likeliest rate of learning.</remarks>
    internal double[] MarginalGiven(int topic, double[] likelihood)
    {
        double[] overall = new double[Grid.Count];
        overallLogs.CopyTo(overall, 0);
        Spans.AddScaled(topicLogs[topic], -1, overall);
        Spans.Normalise(overall, overall);
        GaussianKernel topicPrior = new(Assumptions.TopicSd, Grid.Step);
        double[] marginal = topicPrior.SmoothWidening(overall)[topicPrior.Reach..^topicPrior.Reach];
        Spans.Multiply(marginal, likelihood, marginal);
        Spans.Divide(marginal, Spans.Sum(marginal));
        return marginal;
    }

    /// <summary>Joins prior and likelihoods.</summary>
    /// <param name="grid">The ability grid the likelihoods are given on.</param>
    /// <param name="terms">One per topic.</param>
    /// <param name="curves">One per topic.</param>
    /// <param name="formSd">See <see cref="FormSd"/>.</param>
    /// <param name="assumptions">Prior mean and spreads.</param>
    internal static AbilityPosterior Build(AbilityGrid grid, IReadOnlyList<TopicTerm> terms, ImmutableArray<ResponseCurve> curves, double formSd, StandingAssumptions assumptions)
    {
        GaussianKernel topicPrior = new(assumptions.TopicSd, grid.Step);
        double[] logs = OverallLogs(grid, terms, assumptions);
        int[] chosen = ChooseNodes(logs, grid);
        double[] nodes = [.. chosen.Select(i => grid[i])];
        double[] weights = [.. chosen.Select(i => logs[i])];
        Spans.Normalise(weights, weights);
        ImmutableArray<ConditionalAbility[]> conditionals =
            [.. terms.Select(term => Array.ConvertAll(chosen, i => Condition(i, term.Likelihood.Values, topicPrior)))];
        return new AbilityPosterior(grid, logs, [.. terms.Select(t => t.OverallLogs)], nodes, weights, conditionals, curves, [new RateGroup(null, 0, nodes.Length)], formSd, assumptions);
    }

    /// <summary>Logarithm of how well prior and likelihoods agree, up to a constant that depends on grid and assumptions only.</summary>
    internal static double LogEvidence(AbilityGrid grid, IReadOnlyList<TopicTerm> terms, StandingAssumptions assumptions)
    {
        double[] logs = OverallLogs(grid, terms, assumptions);
        double top = Spans.Max(logs);
        Spans.ExpFromMax(logs, logs);
        return top + Math.Log(Spans.Sum(logs));
    }

    /// <summary>One posterior of today's abilities from what is known at each rate of learning.</summary>
    /// <param name="strata">Posteriors without study on one grid; the gains move their densities to what study has made of them.</param>
    internal static AbilityPosterior Mix(IReadOnlyList<RateStratum> strata)
    {
        AbilityPosterior likeliest = strata.MaxBy(s => s.Weight)!.Posterior;
        List<double> nodes = [];
        List<double> weights = [];
        ImmutableArray<RateGroup>.Builder groups = ImmutableArray.CreateBuilder<RateGroup>(strata.Count);
        List<ConditionalAbility>[] conditionals = [.. likeliest.Curves.Select(_ => new List<ConditionalAbility>())];
        foreach (RateStratum stratum in strata)
        {
            AbilityPosterior posterior = stratum.Posterior;
            groups.Add(new RateGroup(stratum.Rate, nodes.Count, posterior.Nodes.Length));
            nodes.AddRange(posterior.Nodes);
            weights.AddRange(posterior.Weights.Select(w => stratum.Weight * w));
            for (int t = 0; t < conditionals.Length; t++)
            {
                double steps = stratum.Gains[t] / posterior.Grid.Step;
                conditionals[t].AddRange(posterior.conditionals[t].Select(c => Move(c, steps, posterior.Grid.Count)));
            }
        }

        return new AbilityPosterior(
            likeliest.Grid,
            likeliest.overallLogs,
            likeliest.topicLogs,
            [.. nodes],
            [.. weights],
            [.. conditionals.Select(c => c.ToArray())],
            likeliest.Curves,
            groups.MoveToImmutable(),
            likeliest.FormSd,
            likeliest.Assumptions);
    }

    // A density between two grid points is shared by both: its mean is exact, its variance grows by less than a quarter of the squared step.
    private static ConditionalAbility Move(ConditionalAbility conditional, double steps, int count)
    {
        int whole = (int)Math.Floor(steps);
        double upper = steps - whole;
        int start = conditional.Start + whole;
        double[] moved = new double[conditional.Density.Length + 1];
        Spans.AddScaled(conditional.Density.AsSpan(), 1 - upper, moved.AsSpan(0, moved.Length - 1));
        Spans.AddScaled(conditional.Density.AsSpan(), upper, moved.AsSpan(1));
        int from = Math.Max(0, -start);
        int to = Math.Min(moved.Length, count - start);
        if (to <= from)
        {
            // Study cannot carry a whole density off a grid of sixteen logits; should it, all of it stands at the grid's end.
            return new ConditionalAbility(start < 0 ? 0 : count - 1, [1.0]);
        }

        double[] kept = moved[from..to];
        Spans.Divide(kept, Spans.Sum(kept));
        return new ConditionalAbility(start + from, [.. kept]);
    }

    /// <summary>What one topic's likelihood says of the overall ability; its part can be taken out of the whole again.</summary>
    internal static double[] TopicLogs(AbilityGrid grid, double[] likelihood, GaussianKernel topicPrior)
    {
        double[] overall = new double[grid.Count];
        for (int i = 0; i < overall.Length; i++)
        {
            overall[i] = Math.Log(Math.Max(Smallest, topicPrior.Weigh(i, likelihood)));
        }

        return overall;
    }

    private static double[] OverallLogs(AbilityGrid grid, IReadOnlyList<TopicTerm> terms, StandingAssumptions assumptions)
    {
        double[] logs = new double[grid.Count];
        for (int i = 0; i < logs.Length; i++)
        {
            double z = (grid[i] - assumptions.MeanAbility) / assumptions.AbilitySd;
            logs[i] = -0.5 * z * z;
        }

        foreach (TopicTerm term in terms)
        {
            Spans.Add(term.OverallLogs, logs);
        }

        return logs;
    }

    /// <summary>A posterior whose parts were computed elsewhere.</summary>
    /// <param name="grid">The grid of the densities.</param>
    /// <param name="nodes">See <see cref="Nodes"/>.</param>
    /// <param name="weights">See <see cref="Weights"/>.</param>
    /// <param name="conditionals">For each topic a density at each node.</param>
    /// <param name="curves">See <see cref="Curves"/>.</param>
    /// <param name="rateGroups">See <see cref="RateGroups"/>.</param>
    /// <param name="formSd">See <see cref="FormSd"/>.</param>
    /// <param name="assumptions">See <see cref="Assumptions"/>.</param>
    internal static AbilityPosterior Of(
        AbilityGrid grid,
        double[] nodes,
        double[] weights,
        ImmutableArray<ConditionalAbility[]> conditionals,
        ImmutableArray<ResponseCurve> curves,
        ImmutableArray<RateGroup> rateGroups,
        double formSd,
        StandingAssumptions assumptions)
        => new(grid, [], [], nodes, weights, conditionals, curves, rateGroups, formSd, assumptions);

    private static int[] ChooseNodes(double[] logs, AbilityGrid grid)
    {
        double[] density = new double[logs.Length];
        Spans.Normalise(logs, density);
        double mean = 0;
        double square = 0;
        for (int i = 0; i < density.Length; i++)
        {
            mean += density[i] * grid[i];
            square += density[i] * grid[i] * grid[i];
        }

        double sd = Math.Sqrt(Math.Max(0, square - (mean * mean)));
        double spacing = Math.Min(WidestNodeSpacing, NodeSpacingInSds * sd);
        int stride = Math.Max(1, (int)Math.Floor((spacing / grid.Step) + 1e-9));
        int mode = Spans.IndexOfMax(density);
        List<int> chosen = [];
        for (int i = mode % stride; i < density.Length; i += stride)
        {
            if (density[i] > NegligibleNode * density[mode])
            {
                chosen.Add(i);
            }
        }

        return [.. chosen];
    }

    private static ConditionalAbility Condition(int node, double[] likelihood, GaussianKernel topicPrior)
    {
        int from = Math.Max(0, node - topicPrior.Reach);
        int to = Math.Min(likelihood.Length, node + topicPrior.Reach + 1);
        double[] density = new double[to - from];
        topicPrior.Fill(node, from, density);
        Spans.Multiply(density, likelihood.AsSpan(from, density.Length), density);
        double floor = Spans.Max(density) * NegligibleDensity;
        int first = Array.FindIndex(density, d => d > floor);
        int last = Array.FindLastIndex(density, d => d > floor);
        double[] kept = density[first..(last + 1)];
        Spans.Divide(kept, Spans.Sum(kept));
        return new ConditionalAbility(from + first, [.. kept]);
    }
}
