using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>The distribution of the number of correct answers, exact given the model, and what study does to it.</summary>
/// <remarks>
/// <para>Given the overall ability, the difficulty of the form, the person's learning rate and how far the time reaches, topics are independent; a topic's
/// count is a mixture of binomials over its ability, a section's a convolution over its topics, and the whole a mixture over those four
/// (the compound binomial of Lord &amp; Novick 1968, chapter 23). Sections share the nodes, so their dependence is kept.</para>
/// <para>Cost: nodes x (topics x grid x items + items squared). Not safe for use by several threads at once: it keeps its buffers.</para>
/// </remarks>
public sealed class ScoreModel
{
    private const double NegligibleNode = 1e-8;

    private readonly Exam exam;
    private readonly AbilityPosterior posterior;
    private readonly int[] nodes;
    private readonly PassRule rule;
    private readonly int[][] sectionTopics;
    private readonly TopicCounts[] topics;
    private readonly Node[] abilities;
    private readonly Node[] forms;
    private readonly ReachNode[] reaches;
    private readonly Condition[] unstudied;
    private readonly Condition[] conditions;
    private readonly double[] gained;
    private readonly double[][] prefixes;
    private readonly double[][] suffixValues;
    private readonly double[][] sectionValues;
    private readonly double[][] worths;

    /// <param name="standing">What is known of the person, study and pace included; its exam's cut scores decide.</param>
    /// <param name="learning">Assumptions on learning; those the standing was computed with when null.</param>
    /// <param name="detail">How finely to integrate; <see cref="QuadratureDetail.Full"/> when null.</param>
    public ScoreModel(CandidateStanding standing, LearningAssumptions? learning = null, QuadratureDetail? detail = null)
        : this(
            standing.Exam,
            standing.Posterior,
            learning ?? standing.Study.Learning,
            detail,
            [.. standing.Exam.Topics.Select((_, t) => standing.Study.Effort(t, standing.AsOf))],
            standing.Taking.Pace)
    {
    }

    /// <param name="exam">The exam; may differ from the one the posterior was computed for in its cut scores only.</param>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="learning">Assumptions on learning; the documented defaults when null.</param>
    /// <param name="detail">How finely to integrate; <see cref="QuadratureDetail.Full"/> when null.</param>
    /// <param name="effortNow">Effort per topic that the posterior already contains (<see cref="EffortNow"/>); none when null.</param>
    /// <param name="pace">The person's pace; every item is reached in time when null.</param>
    public ScoreModel(
        Exam exam,
        AbilityPosterior posterior,
        LearningAssumptions? learning = null,
        QuadratureDetail? detail = null,
        double[]? effortNow = null,
        WorkingPace? pace = null)
    {
        detail ??= QuadratureDetail.Full;
        this.exam = exam;
        this.posterior = posterior;
        Learning = learning ?? LearningAssumptions.Default;
        EffortNow = effortNow ?? new double[exam.Topics.Length];
        gained = [.. EffortNow.Select(Learning.Effective)];
        rule = new PassRule(exam);
        AbilityNode[][] kept = [.. posterior.RateGroups.Select(g => AbilityNodes.Some(posterior, g, detail.AbilitySpacing, detail.NegligibleAbility))];
        nodes = [.. kept.SelectMany(k => k).Select(k => k.Index)];
        abilities = [.. kept.SelectMany(k => k).Select(k => new Node(posterior.Nodes[k.Index], k.Weight))];
        forms = GaussHermite.Normal(posterior.FormSd, detail.FormNodes);
        Node[] rates = ScoreConditions.Rates(Learning, detail);
        reaches = ReachNodes.Of(exam, pace, detail.ReachParts);
        unstudied = [.. Conditions([new Node(0, 1)], posterior, kept)];
        conditions = [.. Conditions(rates, posterior, kept)];
        topics = [.. exam.Topics.Select((t, i) => new TopicCounts(t, i, posterior, nodes))];
        sectionTopics = [.. exam.Sections.Select((_, s) => Enumerable.Range(0, topics.Length).Where(t => exam.Topics[t].SectionIndex == s).ToArray())];
        prefixes = [.. exam.Topics.Select(t => new double[t.Section.ScoredItems + 1])];
        suffixValues = [.. exam.Topics.Select(t => new double[t.Section.ScoredItems + 1])];
        sectionValues = [.. exam.Sections.Select(s => new double[s.ScoredItems + 1])];
        worths = [.. exam.Topics.Select(t => new double[t.Items + 1])];
        BreadthFactors = Learning.BreadthFactors(exam);
    }

    /// <summary>Assumptions on learning in use.</summary>
    public LearningAssumptions Learning { get; }

    /// <summary>Effort per topic that has been made already and is part of what is known of the person; outcomes at this effort are those of an exam sat now.</summary>
    public double[] EffortNow { get; }

    /// <summary>Nodes for the difficulty of the form.</summary>
    internal IReadOnlyList<Node> Forms => forms;

    /// <summary>Whether the time limit may keep the person from reaching some item.</summary>
    public bool TimeMatters => reaches.Any(r => r.Shares.Any(s => s < 1));

    /// <summary>For each topic, how much an hour moves it against a topic of average size.</summary>
    public IReadOnlyList<double> BreadthFactors { get; }

    /// <summary>Chance of passing after study.</summary>
    /// <param name="effort">Hours per topic that count on exam day on a topic of average size: hours x breadth factor x retention, of all study, past and planned. Zero or more.</param>
    public double PassChance(ReadOnlySpan<double> effort)
    {
        double pass = 0;
        double[][] distributions = NewDistributions();
        double used = VisitNodes(effort, distributions, weight => pass += weight * rule.PassChance(distributions));
        return Math.Clamp(pass / used, 0, 1);
    }

    /// <summary>The whole outcome after study.</summary>
    /// <param name="effort">As in <see cref="PassChance(ReadOnlySpan{double})"/>.</param>
    public ScoreOutcome Outcome(ReadOnlySpan<double> effort)
    {
        double pass = 0;
        double[] total = new double[exam.ScoredItems + 1];
        double[][] sections = NewDistributions();
        double[] expected = new double[topics.Length];
        double[][] distributions = NewDistributions();
        double used = VisitNodes(effort, distributions, weight =>
        {
            pass += weight * rule.PassChance(distributions);
            AddTotal(distributions, weight, total);
            for (int s = 0; s < sections.Length; s++)
            {
                Spans.AddScaled(distributions[s], weight, sections[s]);
            }

            for (int t = 0; t < topics.Length; t++)
            {
                expected[t] += weight * topics[t].Expected();
            }
        });
        Spans.Divide(total, used);
        Spans.Divide(expected, used);
        foreach (double[] section in sections)
        {
            Spans.Divide(section, used);
        }

        double[] chances = [.. sections.Select((d, s) => PassRule.Tail(d, rule.SectionMinimum[s]))];
        return new ScoreOutcome(Math.Clamp(pass / used, 0, 1), [.. total], [.. sections.Select(d => d.ToArray())], chances, expected);
    }

    /// <summary>Where the uncertainty about the number of correct answers after study comes from, every item taken as reached in time.</summary>
    /// <param name="effort">As in <see cref="PassChance(ReadOnlySpan{double})"/>.</param>
    public ScoreUncertainty Uncertainty(ReadOnlySpan<double> effort)
    {
        bool further = !effort.SequenceEqual(EffortNow);
        double[] hours = effort.ToArray();
        VarianceSplit split = new([.. exam.Topics.Select((t, i) => new TopicMoments(t, i, posterior, nodes))], abilities);
        foreach (IGrouping<(double Rate, int First), Condition> rate in (further ? conditions : unstudied).GroupBy(c => (c.Rate, c.First)))
        {
            // How far the time reaches is left out, so conditions that differ in that alone are one.
            split.Add([.. rate.GroupBy(c => c.Form).Select(f => f.First() with { Weight = f.Sum(c => c.Weight) })], (condition, topic) => Shift(condition, topic, hours[topic]));
        }

        return split.Split(further);
    }

    /// <summary>What one more piece of effort on each topic would add to the pass chance and to the expected correct answers, all else as it is;
    /// and what taking one piece away would cost.</summary>
    /// <param name="effort">As in <see cref="PassChance(ReadOnlySpan{double})"/>.</param>
    /// <param name="piece">Effort in one piece, per topic.</param>
    /// <param name="gains">Receives, per topic, the gains of one piece more.</param>
    /// <param name="losses">Receives, per topic, the losses of one piece less (never below zero effort).</param>
    /// <returns>The pass chance at <paramref name="effort"/>.</returns>
    public double Marginal(ReadOnlySpan<double> effort, ReadOnlySpan<double> piece, Span<EffortChange> gains, Span<EffortChange> losses)
    {
        gains.Clear();
        losses.Clear();
        double pass = 0;
        double[] more = new double[topics.Length];
        double[] less = new double[topics.Length];
        for (int t = 0; t < more.Length; t++)
        {
            more[t] = effort[t] + piece[t];
            less[t] = Math.Max(0, effort[t] - piece[t]);
        }

        // Where no further study has been done the rate matters for the change only, whose tables can be averaged over the rates.
        bool rateMatters = !effort.SequenceEqual(EffortNow);
        double[][] distributions = NewDistributions();
        foreach (Condition[] alike in rateMatters ? conditions.Select(c => new[] { c }) : conditions.GroupBy(c => (c.Form, c.Reach, c.First)).Select(g => g.ToArray()))
        {
            Condition condition = alike[0] with { Weight = alike.Sum(c => c.Weight) };
            Prepare(condition, effort);
            for (int t = 0; t < topics.Length; t++)
            {
                topics[t].ClearChange();
                foreach (Condition one in alike)
                {
                    topics[t].AddToChange(one.Weight / condition.Weight, Shift(one, t, more[t]), less[t] == effort[t] ? null : Shift(one, t, less[t]));
                }
            }

            for (int k = condition.First; k < condition.First + condition.Count; k++)
            {
                double nodeWeight = condition.Weight * abilities[k].Weight;
                Distribute(k, distributions);
                pass += nodeWeight * rule.PassChance(distributions);
                FillWorths(distributions);
                for (int t = 0; t < topics.Length; t++)
                {
                    topics[t].AddChange(k, nodeWeight, worths[t], ref gains[t], ref losses[t]);
                }
            }
        }

        return pass;
    }

    /// <summary>Visits every node, as things stand, with the chance to pass for each count of each topic when the others fall as they do there.</summary>
    /// <param name="visit">Gets the shift of the form in logits, the node's number in the posterior, the weight of the two, and for each topic the pass
    /// chances by its count, in buffers that are used again. The weights sum to 1.</param>
    internal void VisitWorths(Action<double, int, double, double[][]> visit)
    {
        double[][] distributions = NewDistributions();
        foreach (Condition condition in unstudied)
        {
            Prepare(condition, EffortNow);
            for (int k = condition.First; k < condition.First + condition.Count; k++)
            {
                Distribute(k, distributions);
                FillWorths(distributions);
                visit(condition.Form, nodes[k], condition.Weight * abilities[k].Weight, worths);
            }
        }
    }

    // Visits every node of weight with the sections' distributions filled in; returns the weight visited.
    private double VisitNodes(ReadOnlySpan<double> effort, double[][] distributions, Action<double> visit)
    {
        double used = 0;
        foreach (Condition condition in effort.SequenceEqual(EffortNow) ? unstudied : conditions)
        {
            Prepare(condition, effort);
            for (int k = condition.First; k < condition.First + condition.Count; k++)
            {
                double nodeWeight = condition.Weight * abilities[k].Weight;
                if (nodeWeight >= NegligibleNode)
                {
                    used += nodeWeight;
                    Distribute(k, distributions);
                    visit(nodeWeight);
                }
            }
        }

        return used;
    }

    private double[][] NewDistributions() => [.. exam.Sections.Select(s => new double[s.ScoredItems + 1])];

    // Every combination of reach, form and rate: the rates given where nothing is known of the person's, their own where something is. Without further study the rate does not matter.
    private IEnumerable<Condition> Conditions(Node[] rates, AbilityPosterior posterior, AbilityNode[][] kept)
    {
        foreach ((ReachNode reach, Node form) in reaches.SelectMany(r => forms.Select(f => (r, f))))
        {
            int first = 0;
            for (int g = 0; g < kept.Length; g++)
            {
                Node[] own = posterior.RateGroups[g].Rate is { } known ? [new Node(known, 1)] : rates;
                foreach (Node rate in own)
                {
                    yield return new Condition(form.At, rate.At, reach, reach.Weight * form.Weight * rate.Weight, first, kept[g].Length);
                }

                first += kept[g].Length;
            }
        }
    }

    private void Prepare(Condition condition, ReadOnlySpan<double> effort)
    {
        for (int t = 0; t < topics.Length; t++)
        {
            topics[t].Prepare(Shift(condition, t, effort[t]), condition.Reach.Shares[exam.Topics[t].SectionIndex]);
        }
    }

    private double Shift(Condition condition, int topic, double effort) => condition.Form + (condition.Rate * (Learning.Effective(effort) - gained[topic]));

    // Leaves in each topic's Counts its distribution at node k, in prefixes[t] that of the section's topics before t.
    private void Distribute(int k, double[][] distributions)
    {
        for (int s = 0; s < sectionTopics.Length; s++)
        {
            int length = 1;
            Span<double> sum = prefixes[sectionTopics[s][0]].AsSpan(0, 1);
            sum[0] = 1;
            for (int i = 0; i < sectionTopics[s].Length; i++)
            {
                TopicCounts topic = topics[sectionTopics[s][i]];
                topic.Count(k);
                double[] next = i + 1 < sectionTopics[s].Length ? prefixes[sectionTopics[s][i + 1]] : distributions[s];
                Span<double> target = next.AsSpan(0, length + topic.Items);
                target.Clear();
                if (length > topic.Items)
                {
                    Convolution.Add(sum, topic.Counts, 1, target);
                }
                else
                {
                    Convolution.Add(topic.Counts, sum, 1, target);
                }

                length += topic.Items;
                sum = target;
            }
        }
    }

    private static void AddTotal(double[][] distributions, double weight, double[] total)
    {
        double[] all = distributions[0];
        for (int s = 1; s + 1 < distributions.Length; s++)
        {
            all = Convolution.Of(all, distributions[s]);
        }

        if (distributions.Length == 1)
        {
            Spans.AddScaled(all, weight, total);
        }
        else
        {
            Convolution.Add(all, distributions[^1], weight, total);
        }
    }

    // Leaves in each topic's worths the chance to pass for each of its counts, the others as they fall at the node last distributed.
    private void FillWorths(double[][] distributions)
    {
        for (int s = 0; s < sectionTopics.Length; s++)
        {
            rule.Value(s, distributions, sectionValues[s]);
            FillWorths(sectionTopics[s], sectionValues[s]);
        }
    }

    private void FillWorths(int[] members, ReadOnlySpan<double> sectionValue)
    {
        // suffix(j): chance to pass when this topic and those before it have j correct, the later ones as they fall.
        double[] suffix = suffixValues[members[^1]];
        sectionValue.CopyTo(suffix);
        int reach = sectionValue.Length - 1;
        for (int i = members.Length - 1; i >= 0; i--)
        {
            TopicCounts topic = topics[members[i]];
            int before = reach - topic.Items;
            ReadOnlySpan<double> prefix = prefixes[members[i]].AsSpan(0, before + 1);
            Span<double> worth = worths[members[i]];
            for (int count = 0; count < worth.Length; count++)
            {
                worth[count] = Spans.Dot(prefix, suffix.AsSpan(count, before + 1));
            }

            if (i > 0)
            {
                double[] earlier = suffixValues[members[i - 1]];
                for (int j = 0; j <= before; j++)
                {
                    earlier[j] = Spans.Dot(topic.Counts, suffix.AsSpan(j, topic.Items + 1));
                }

                suffix = earlier;
                reach = before;
            }
        }
    }
}
