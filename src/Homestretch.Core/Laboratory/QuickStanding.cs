using System.Collections.Immutable;
using System.Runtime.InteropServices;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>The standing of simulated candidates of one exam, as <see cref="StandingCalculator"/> has it but coarser, a few hundred times as fast. One per thread.</summary>
/// <remarks>
/// <para>What each test says of a topic is the production's own likelihood, looked up and not computed again. Unlike there, drift between two tests after the same day counts
/// for each of them separately, abilities lie <see cref="Step"/> apart, and the rate of learning has three nodes: those of its prior, weighted by how well they explain the tests.
/// Tests hold pass chances to the production's.</para>
/// <para>For each rate the grid stands for today's ability; what a test met was lower by what study has added since.</para>
/// </remarks>
internal sealed class QuickStanding
{
    private const double Step = LikelihoodTable.Step;
    private const double NodeStep = 2 * Step;
    private const double FurthestNode = 5;
    private const int RateNodes = 3;
    private const double NegligibleNode = 2e-3;
    private const double NegligibleDensity = 1e-7;
    private const double PriorReachInSds = 6;

    private readonly ExamWorld world;
    private readonly LikelihoodTable table;
    private readonly StandingAssumptions assumptions = StandingAssumptions.Default;
    private readonly LearningAssumptions learning = LearningAssumptions.Default;
    private readonly AbilityGrid grid;
    private readonly ImmutableArray<ResponseCurve> curves;
    private readonly double[] chances;
    private readonly int topics;
    private readonly int nodeCount;
    private readonly Node[] rates;
    private readonly double[] likelihoods;
    private readonly double[] prior;
    private readonly double[] logs;
    private readonly double[] nodeLogs;
    private readonly double[] means;
    private readonly int priorReach;

    public QuickStanding(ExamWorld world, LikelihoodTable table)
    {
        this.world = world;
        this.table = table;
        grid = LikelihoodTable.Grid;
        topics = world.Curves.Length;
        curves = [.. world.Curves];
        chances = [.. Enumerable.Range(0, grid.Count).Select(i => world.Curves[0].Chance(grid[i]))];
        nodeCount = (int)Math.Round(2 * FurthestNode / NodeStep) + 1;
        rates = GaussHermite.Normal(learning.RateLogSd, RateNodes);
        likelihoods = new double[RateNodes * topics * grid.Count];
        priorReach = (int)Math.Ceiling(PriorReachInSds * assumptions.TopicSd / Step);
        prior = new double[(2 * priorReach) + 2];
        logs = new double[grid.Count];
        nodeLogs = new double[RateNodes * nodeCount];
        means = new double[topics];
    }

    /// <summary>The standing that planning needs; figures that only people read are left out.</summary>
    /// <inheritdoc cref="Posterior" path="/param"/>
    public CandidateStanding Standing(IReadOnlyList<Attempt> tests, StudyHistory study, LocalDate today) => Standing(Posterior(tests, study, today), study, today);

    /// <summary>The standing of a person whose abilities and rate are known exactly.</summary>
    public CandidateStanding Known(ReadOnlySpan<double> abilities, double rate, StudyHistory study, LocalDate today) => Standing(Known(abilities, rate), study, today);

    /// <summary>What is known of a person on a day.</summary>
    /// <param name="tests">Tests taken, in any order.</param>
    /// <param name="study">Study done until that day.</param>
    /// <param name="today">The day.</param>
    public AbilityPosterior Posterior(IReadOnlyList<Attempt> tests, StudyHistory study, LocalDate today)
    {
        Array.Clear(means);
        int rateCount = study.IsEmpty ? 1 : RateNodes;
        Span<double> gainsNow = stackalloc double[topics];
        Span<double> gainsThen = stackalloc double[tests.Count * topics];
        Gains(tests, study, today, gainsNow, gainsThen);
        for (int r = 0; r < rateCount; r++)
        {
            double rate = study.IsEmpty ? 0 : Rate(r);
            Span<double> weights = nodeLogs.AsSpan(r * nodeCount, nodeCount);
            for (int k = 0; k < nodeCount; k++)
            {
                double z = (NodeAt(k) - assumptions.MeanAbility) / assumptions.AbilitySd;
                weights[k] = (-0.5 * z * z) + (study.IsEmpty ? 0 : Math.Log(rates[r].Weight));
            }

            for (int t = 0; t < topics; t++)
            {
                AddTopic(t, tests, today, rate, gainsNow[t], gainsThen, Likelihood(r, t), weights);
            }
        }

        return Assemble(tests, study.IsEmpty, rateCount, gainsNow);
    }

    private AbilityPosterior Known(ReadOnlySpan<double> abilities, double rate)
    {
        ImmutableArray<ConditionalAbility[]>.Builder conditionals = ImmutableArray.CreateBuilder<ConditionalAbility[]>(topics);
        for (int t = 0; t < topics; t++)
        {
            // Between two grid points the mass is split so that its mean is the ability.
            double place = Math.Clamp((abilities[t] - grid.Origin) / grid.Step, 0, grid.Count - 1.001);
            int start = (int)place;
            conditionals.Add([new ConditionalAbility(start, [start + 1 - place, place - start])]);
            means[t] = curves[t].Chance(abilities[t]);
        }

        return AbilityPosterior.Of(grid, [0], [1], conditionals.MoveToImmutable(), curves, [new RateGroup(rate, 0, 1)], assumptions.FormSd, assumptions);
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

    private static double NodeAt(int k) => (k * NodeStep) - FurthestNode;

    private double Rate(int r) => learning.RatePerHour * Math.Exp(rates[r].At);

    private Span<double> Likelihood(int rate, int topic) => likelihoods.AsSpan(((rate * topics) + topic) * grid.Count, grid.Count);

    private void Gains(IReadOnlyList<Attempt> tests, StudyHistory study, LocalDate today, Span<double> now, Span<double> then)
    {
        now.Clear();
        then.Clear();
        for (int t = 0; t < topics && !study.IsEmpty; t++)
        {
            if (study.Of(t).IsEmpty)
            {
                continue;
            }

            now[t] = study.Gain(t, today);
            for (int j = 0; j < tests.Count; j++)
            {
                then[(j * topics) + t] = study.Gain(t, tests[j].Date, withDay: tests[j].Kind == AttemptKind.Quiz);
            }
        }
    }

    // Leaves the topic's likelihood of today's ability in target, and adds what it says of the overall ability to the nodes.
    private void AddTopic(int topic, IReadOnlyList<Attempt> tests, LocalDate today, double rate, double gainNow, ReadOnlySpan<double> gainsThen, Span<double> target, Span<double> nodes)
    {
        Array.Clear(logs);
        for (int j = 0; j < tests.Count; j++)
        {
            if (topic < tests[j].Observations.Length)
            {
                double shift = rate * (gainsThen[(j * topics) + topic] - gainNow);
                double[] values = table.LogLikelihood(curves[topic].Guess, (TopicCount)tests[j].Observations[topic], Period.DaysBetween(tests[j].Date, today));
                LikelihoodTable.AddShifted(values, shift, logs);
            }
        }

        double top = Spans.Max(logs);
        Spans.ExpFromMax(logs, target);
        double lift = rate * gainNow;
        for (int k = 0; k < nodes.Length; k++)
        {
            nodes[k] += top + Math.Log(Math.Max(1e-300, Weigh(NodeAt(k) + lift, target)));
        }
    }

    // Sum over the grid of the topic's prior about its centre times the likelihood.
    private double Weigh(double centre, ReadOnlySpan<double> likelihood)
    {
        int first = FillPrior(centre);
        int from = Math.Max(0, first);
        int to = Math.Min(likelihood.Length, first + prior.Length);
        return from >= to ? 0 : Spans.Dot(prior.AsSpan(from - first, to - from), likelihood[from..to]);
    }

    // The normal density at the grid points about a centre, by the recurrence of its ratios; returns the index of the first point.
    private int FillPrior(double centre)
    {
        int first = (int)Math.Floor((centre - grid.Origin) / Step) - priorReach;
        double inverse = 1 / assumptions.TopicSd;
        double z = (grid.Origin + (first * Step) - centre) * inverse;
        double step = Step * inverse;
        double value = Math.Exp(-0.5 * z * z);
        double ratio = Math.Exp(-step * (z + (0.5 * step)));
        double ratioOfRatios = Math.Exp(-step * step);
        for (int i = 0; i < prior.Length; i++)
        {
            prior[i] = value;
            value *= ratio;
            ratio *= ratioOfRatios;
        }

        return first;
    }

    private AbilityPosterior Assemble(IReadOnlyList<Attempt> tests, bool unstudied, int rateCount, ReadOnlySpan<double> gainsNow)
    {
        Span<double> weights = nodeLogs.AsSpan(0, rateCount * nodeCount);
        Spans.ExpFromMax(weights, weights);
        double total = 0;
        int kept = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] = weights[i] < NegligibleNode ? 0 : weights[i];
            total += weights[i];
            kept += weights[i] > 0 ? 1 : 0;
        }

        double[] nodes = new double[kept];
        double[] nodeWeights = new double[kept];
        ImmutableArray<ConditionalAbility[]>.Builder conditionals = ImmutableArray.CreateBuilder<ConditionalAbility[]>(topics);
        for (int t = 0; t < topics; t++)
        {
            conditionals.Add(new ConditionalAbility[kept]);
        }

        ImmutableArray<RateGroup>.Builder groups = ImmutableArray.CreateBuilder<RateGroup>(rateCount);
        int node = 0;
        for (int r = 0; r < rateCount; r++)
        {
            int first = node;
            for (int k = 0; k < nodeCount; k++)
            {
                double weight = weights[(r * nodeCount) + k] / total;
                if (weight == 0)
                {
                    continue;
                }

                nodes[node] = NodeAt(k);
                nodeWeights[node] = weight;
                for (int t = 0; t < topics; t++)
                {
                    double lift = unstudied ? 0 : Rate(r) * gainsNow[t];
                    conditionals[t][node] = Condition(NodeAt(k) + lift, Likelihood(r, t), weight, t);
                }

                node++;
            }

            if (node > first)
            {
                groups.Add(new RateGroup(unstudied ? null : Rate(r), first, node - first));
            }
        }

        return AbilityPosterior.Of(grid, nodes, nodeWeights, conditionals.MoveToImmutable(), curves, groups.ToImmutable(), StandingCalculator.FormSd(tests, assumptions), assumptions);
    }

    private ConditionalAbility Condition(double centre, ReadOnlySpan<double> likelihood, double weight, int topic)
    {
        int first = FillPrior(centre);
        int from = Math.Max(0, first);
        Span<double> density = prior.AsSpan(from - first, Math.Min(likelihood.Length, first + prior.Length) - from);
        Spans.Multiply(density, likelihood.Slice(from, density.Length), density);
        double floor = Spans.Max(density) * NegligibleDensity;
        int start = 0;
        int end = density.Length;
        while (density[start] <= floor)
        {
            start++;
        }

        while (density[end - 1] <= floor)
        {
            end--;
        }

        double[] kept = density[start..end].ToArray();
        Spans.Divide(kept, Spans.Sum(kept));
        means[topic] += weight * Spans.Dot(kept, chances.AsSpan(from + start, kept.Length));
        return new ConditionalAbility(from + start, ImmutableCollectionsMarshal.AsImmutableArray(kept));
    }
}
