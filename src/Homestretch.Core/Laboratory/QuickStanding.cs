using System.Collections.Immutable;
using System.Runtime.InteropServices;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>The standing of simulated candidates of one exam, as <see cref="StandingCalculator"/> has it but coarser, a thousand times as fast. One per thread.</summary>
/// <remarks>
/// <para>What each test says of a topic is the production's own likelihood, looked up and not computed again. Unlike there, drift between two tests after the same day counts
/// for each of them separately, abilities lie <see cref="Step"/> apart, and the rate of learning has three nodes: those of its prior, weighted by how well they explain the tests.
/// Tests hold pass chances to the production's.</para>
/// <para>Posteriors are of the abilities that the person would have without study. What a test met was higher by what study had added by then, at each rate.</para>
/// </remarks>
internal sealed class QuickStanding
{
    private const double Step = LikelihoodTable.Step;
    private const int NodeStride = 2;
    private const double FurthestNode = 5;
    private const int RateNodes = 3;
    private const double NegligibleNode = 2e-3;

    private readonly ExamWorld world;
    private readonly LikelihoodTable table;
    private readonly StandingAssumptions assumptions = StandingAssumptions.Default;
    private readonly LearningAssumptions learning = LearningAssumptions.Default;
    private readonly AbilityGrid grid;
    private readonly ImmutableArray<ResponseCurve> curves;
    private readonly double[] chances;
    private readonly int topics;
    private readonly int firstNode;
    private readonly int nodeCount;
    private readonly Node[] rates;
    private readonly double[] kernel;
    private readonly double[] nodePrior;
    private readonly double[] likelihoods;
    private readonly double[] logs;
    private readonly double[] weights;
    private readonly double[] means;

    // Densities by topic and node, used anew for every person.
    private readonly List<double[]>[] densities;

    public QuickStanding(ExamWorld world, LikelihoodTable table)
    {
        this.world = world;
        this.table = table;
        grid = LikelihoodTable.Grid;
        topics = world.Curves.Length;
        curves = [.. world.Curves];
        chances = [.. Enumerable.Range(0, grid.Count).Select(i => world.Curves[0].Chance(grid[i]))];
        int reach = (int)Math.Round((AbilityGrid.HalfWidth - FurthestNode) / Step);
        firstNode = reach;
        nodeCount = (int)Math.Round(2 * FurthestNode / (NodeStride * Step)) + 1;
        rates = GaussHermite.Normal(learning.RateLogSd, RateNodes);
        kernel = [.. Enumerable.Range(-reach, (2 * reach) + 1).Select(i => Density(i * Step, assumptions.TopicSd))];
        nodePrior = [.. Enumerable.Range(0, nodeCount).Select(k => Density(grid[GridIndex(k)] - assumptions.MeanAbility, assumptions.AbilitySd))];
        likelihoods = new double[RateNodes * topics * grid.Count];
        logs = new double[grid.Count];
        weights = new double[RateNodes * nodeCount];
        means = new double[topics];
        densities = [.. Enumerable.Range(0, topics).Select(_ => new List<double[]>())];
    }

    /// <summary>The standing that planning needs, valid until the next call; figures that only people read are left out.</summary>
    /// <inheritdoc cref="Posterior" path="/param"/>
    public CandidateStanding Standing(IReadOnlyList<Attempt> tests, StudyHistory study, LocalDate today) => Standing(Posterior(tests, study, today), study, today);

    /// <summary>The standing of a person whose abilities and rate are known exactly.</summary>
    /// <param name="abilities">Ability on each topic on that day.</param>
    /// <param name="rate">Rate of learning, in logits per hour.</param>
    /// <param name="study">Study done until that day.</param>
    /// <param name="today">The day.</param>
    public CandidateStanding Known(ReadOnlySpan<double> abilities, double rate, StudyHistory study, LocalDate today)
    {
        ImmutableArray<ConditionalAbility[]>.Builder conditionals = ImmutableArray.CreateBuilder<ConditionalAbility[]>(topics);
        for (int t = 0; t < topics; t++)
        {
            // Between two grid points the mass is split so that its mean is the ability.
            double unstudied = abilities[t] - (study.IsEmpty ? 0 : rate * study.Gain(t, today));
            double place = Math.Clamp((unstudied - grid.Origin) / grid.Step, 0, grid.Count - 1.001);
            int start = (int)place;
            conditionals.Add([new ConditionalAbility(start, [start + 1 - place, place - start])]);
            means[t] = curves[t].Chance(abilities[t]);
        }

        return Standing(
            AbilityPosterior.Of(grid, [0], [1], conditionals.MoveToImmutable(), curves, [new RateGroup(rate, 0, 1)], assumptions.FormSd, assumptions), study, today);
    }

    /// <summary>What is known of a person's abilities without study; valid until the next call.</summary>
    /// <param name="tests">Tests taken, in any order.</param>
    /// <param name="study">Study done until that day.</param>
    /// <param name="today">The day.</param>
    public AbilityPosterior Posterior(IReadOnlyList<Attempt> tests, StudyHistory study, LocalDate today)
    {
        int rateCount = study.IsEmpty ? 1 : RateNodes;
        Span<double> gainsThen = stackalloc double[tests.Count * topics];
        Gains(tests, study, gainsThen);
        Span<double> scales = stackalloc double[RateNodes];
        for (int r = 0; r < rateCount; r++)
        {
            double rate = study.IsEmpty ? 0 : Rate(r);
            Span<double> nodes = weights.AsSpan(r * nodeCount, nodeCount);
            nodePrior.CopyTo(nodes);
            scales[r] = study.IsEmpty ? 0 : Math.Log(rates[r].Weight);
            for (int t = 0; t < topics; t++)
            {
                scales[r] += AddTopic(t, tests, today, rate, gainsThen, Likelihood(r, t), nodes);
            }
        }

        double top = Spans.Max(scales[..rateCount]);
        for (int r = 0; r < rateCount; r++)
        {
            double factor = Math.Exp(scales[r] - top);
            foreach (ref double weight in weights.AsSpan(r * nodeCount, nodeCount))
            {
                weight *= factor;
            }
        }

        return Assemble(tests, study, today, rateCount);
    }

    private CandidateStanding Standing(AbilityPosterior posterior, StudyHistory study, LocalDate today)
    {
        ImmutableArray<TopicStanding>.Builder standings = ImmutableArray.CreateBuilder<TopicStanding>(topics);
        for (int t = 0; t < topics; t++)
        {
            Level level = new(means[t], means[t], means[t], StandingCalculator.BandOf(means[t], world.Exam.Bands), default);
            standings.Add(new TopicStanding(world.Exam.Topics[t], 0, level, null, []));
        }

        return new CandidateStanding(world.Exam, today, 0, standings.MoveToImmutable(), [], posterior) { Study = study };
    }

    private static double Density(double distance, double sd) => Math.Exp(-0.5 * distance * distance / (sd * sd));

    private int GridIndex(int node) => firstNode + (node * NodeStride);

    private double Rate(int r) => learning.RatePerHour * Math.Exp(rates[r].At);

    private Span<double> Likelihood(int rate, int topic) => likelihoods.AsSpan(((rate * topics) + topic) * grid.Count, grid.Count);

    // What study had added by each test, as a multiple of the rate.
    private void Gains(IReadOnlyList<Attempt> tests, StudyHistory study, Span<double> then)
    {
        then.Clear();
        for (int t = 0; t < topics && !study.IsEmpty; t++)
        {
            for (int j = 0; j < tests.Count && !study.Of(t).IsEmpty; j++)
            {
                then[(j * topics) + t] = study.Gain(t, tests[j].Date, withDay: tests[j].Kind == AttemptKind.Quiz);
            }
        }
    }

    // Leaves the topic's likelihood in target, its largest value 1, and multiplies the nodes by what it says of the overall ability. Returns the logarithm of what was divided out.
    private double AddTopic(int topic, IReadOnlyList<Attempt> tests, LocalDate today, double rate, ReadOnlySpan<double> gainsThen, Span<double> target, Span<double> nodes)
    {
        Array.Clear(logs);
        for (int j = 0; j < tests.Count; j++)
        {
            double[] values = table.LogLikelihood(curves[topic].Guess, (TopicCount)tests[j].Observations[topic], Period.DaysBetween(tests[j].Date, today));
            LikelihoodTable.AddShifted(values, rate * gainsThen[(j * topics) + topic], logs);
        }

        double top = Spans.Max(logs);
        Spans.ExpFromMax(logs, target);
        for (int k = 0; k < nodes.Length; k++)
        {
            nodes[k] *= Spans.Dot(kernel, target.Slice(GridIndex(k) - firstNode, kernel.Length));
        }

        return top;
    }

    private AbilityPosterior Assemble(IReadOnlyList<Attempt> tests, StudyHistory study, LocalDate today, int rateCount)
    {
        Span<double> all = weights.AsSpan(0, rateCount * nodeCount);
        double floor = NegligibleNode * Spans.Max(all);
        double total = 0;
        int kept = 0;
        foreach (double weight in all)
        {
            total += weight > floor ? weight : 0;
            kept += weight > floor ? 1 : 0;
        }

        double[] nodes = new double[kept];
        double[] nodeWeights = new double[kept];
        ConditionalAbility[][] conditionals = new ConditionalAbility[topics][];
        for (int t = 0; t < topics; t++)
        {
            conditionals[t] = new ConditionalAbility[kept];
        }

        Array.Clear(means);
        ImmutableArray<RateGroup>.Builder groups = ImmutableArray.CreateBuilder<RateGroup>(rateCount);
        int node = 0;
        for (int r = 0; r < rateCount; r++)
        {
            int first = node;
            for (int k = 0; k < nodeCount; k++)
            {
                double weight = all[(r * nodeCount) + k];
                if (weight > floor)
                {
                    nodes[node] = grid[GridIndex(k)];
                    nodeWeights[node] = weight / total;
                    node++;
                }
            }

            if (node > first)
            {
                groups.Add(new RateGroup(study.IsEmpty ? null : Rate(r), first, node - first));
                for (int t = 0; t < topics; t++)
                {
                    Condition(r, t, study.IsEmpty ? 0 : Rate(r) * study.Gain(t, today), first, all.Slice(r * nodeCount, nodeCount), floor, total, conditionals[t]);
                }
            }
        }

        return AbilityPosterior.Of(
            grid, nodes, nodeWeights, ImmutableCollectionsMarshal.AsImmutableArray(conditionals), curves, groups.ToImmutable(), StandingCalculator.FormSd(tests, assumptions), assumptions);
    }

    // A topic's density at each node of one rate that is kept, and what these say of the chance of a correct answer today.
    private void Condition(int rate, int topic, double gainNow, int node, ReadOnlySpan<double> group, double floor, double total, ConditionalAbility[] target)
    {
        ReadOnlySpan<double> likelihood = Likelihood(rate, topic);
        Array.Clear(logs);
        LikelihoodTable.AddShifted(chances, gainNow, logs);
        for (int k = 0; k < group.Length; k++)
        {
            if (group[k] <= floor)
            {
                continue;
            }

            int start = GridIndex(k) - firstNode;
            if (node == densities[topic].Count)
            {
                densities[topic].Add(new double[kernel.Length]);
            }

            double[] density = densities[topic][node];
            Spans.Multiply(kernel, likelihood.Slice(start, kernel.Length), density);
            double sum = Spans.Sum(density);
            means[topic] += group[k] / total * Spans.Dot(density, logs.AsSpan(start, kernel.Length)) / sum;
            Spans.Divide(density, sum);
            target[node++] = new ConditionalAbility(start, ImmutableCollectionsMarshal.AsImmutableArray(density));
        }
    }
}
