using Homestretch.Core.Blueprints;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>The distribution of the number of correct answers, exact given the model, and what study does to it.</summary>
/// <remarks>
/// <para>Given the overall ability, the difficulty of the form and the person's learning rate, topics are independent; a topic's count is a
/// mixture of binomials over its ability, a section's a convolution over its topics, and the whole a mixture over those three
/// (the compound binomial of Lord &amp; Novick 1968, chapter 23). Sections share the nodes, so their dependence is kept.</para>
/// <para>Cost: nodes x (topics x grid x items + items squared). Not safe for use by several threads at once: it keeps its buffers.</para>
/// </remarks>
public sealed class ScoreModel
{
    private const double NegligibleNode = 1e-8;

    private readonly Exam exam;
    private readonly PassRule rule;
    private readonly int[][] sectionTopics;
    private readonly TopicCounts[] topics;
    private readonly Node[] abilities;
    private readonly Node[] forms;
    private readonly Node[] rates;
    private readonly double[][] prefixes;
    private readonly double[][] suffixValues;
    private readonly double[] useful;

    /// <param name="exam">The exam; may differ from the one the standing was computed for in its cut scores only.</param>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="learning">Assumptions on learning; the documented defaults when null.</param>
    /// <param name="detail">How finely to integrate; <see cref="QuadratureDetail.Full"/> when null.</param>
    public ScoreModel(Exam exam, AbilityPosterior posterior, LearningAssumptions? learning = null, QuadratureDetail? detail = null)
    {
        detail ??= QuadratureDetail.Full;
        this.exam = exam;
        Learning = learning ?? LearningAssumptions.Default;
        rule = new PassRule(exam);
        int[] kept = Keep(posterior, detail);
        double keptWeight = kept.Sum(k => posterior.Weights[k]);
        abilities = Array.ConvertAll(kept, k => new Node(posterior.Nodes[k], posterior.Weights[k] / keptWeight));
        forms = GaussHermite.Normal(posterior.FormSd, detail.FormNodes);
        rates = Array.ConvertAll(
            GaussHermite.Normal(Learning.RateLogSd, detail.RateNodes),
            n => new Node(Learning.RatePerHour * Math.Exp(n.At), n.Weight));
        topics = [.. exam.Topics.Select((t, i) => new TopicCounts(t, i, posterior, kept))];
        sectionTopics = [.. exam.Sections.Select((_, s) => Enumerable.Range(0, topics.Length).Where(t => exam.Topics[t].SectionIndex == s).ToArray())];
        prefixes = [.. exam.Topics.Select(t => new double[t.Section.ScoredItems + 1])];
        suffixValues = [.. exam.Topics.Select(t => new double[t.Section.ScoredItems + 1])];
        useful = new double[exam.Topics.Max(t => t.Items) + 1];
        double meanItems = (double)exam.ScoredItems / topics.Length;
        BreadthFactors = [.. exam.Topics.Select(t => Learning.BreadthFactor(Math.Max(1, t.Items), meanItems))];
    }

    /// <summary>Assumptions on learning in use.</summary>
    public LearningAssumptions Learning { get; }

    /// <summary>For each topic, how much an hour moves it against a topic of average size.</summary>
    public IReadOnlyList<double> BreadthFactors { get; }

    /// <summary>Chance of passing after study.</summary>
    /// <param name="effort">Hours per topic that count on exam day on a topic of average size: hours x breadth factor x retention. Zero or more.</param>
    public double PassChance(ReadOnlySpan<double> effort)
    {
        double pass = 0;
        double[][] distributions = NewDistributions();
        double used = VisitNodes(effort, distributions, weight => pass += weight * PassChance(distributions));
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
            pass += weight * PassChance(distributions);
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

        double[][] distributions = NewDistributions();
        double[] value = new double[exam.Sections.Max(s => s.ScoredItems) + 1];
        foreach ((double form, double rate, double weight) in Conditions(more))
        {
            Prepare(form, rate, effort);
            for (int t = 0; t < topics.Length; t++)
            {
                topics[t].PrepareChange(Shift(form, rate, more[t]), less[t] == effort[t] ? null : Shift(form, rate, less[t]));
            }

            for (int k = 0; k < abilities.Length; k++)
            {
                double nodeWeight = weight * abilities[k].Weight;
                Distribute(k, distributions);
                pass += nodeWeight * PassChance(distributions);
                for (int s = 0; s < sectionTopics.Length; s++)
                {
                    Span<double> sectionValue = value.AsSpan(0, distributions[s].Length);
                    rule.Value(s, distributions, sectionValue);
                    AddChanges(sectionTopics[s], k, nodeWeight, sectionValue, gains, losses);
                }
            }
        }

        return pass;
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

    // Visits every node of weight with the sections' distributions filled in; returns the weight visited.
    private double VisitNodes(ReadOnlySpan<double> effort, double[][] distributions, Action<double> visit)
    {
        double used = 0;
        foreach ((double form, double rate, double weight) in Conditions(effort))
        {
            Prepare(form, rate, effort);
            for (int k = 0; k < abilities.Length; k++)
            {
                double nodeWeight = weight * abilities[k].Weight;
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

    // Every combination of form and rate; the rate does not matter without study.
    private List<(double Form, double Rate, double Weight)> Conditions(ReadOnlySpan<double> effort)
    {
        bool study = effort.ContainsAnyExcept(0.0);
        List<(double, double, double)> conditions = new(forms.Length * rates.Length);
        foreach (Node form in forms)
        {
            if (!study)
            {
                conditions.Add((form.At, 0, form.Weight));
                continue;
            }

            foreach (Node rate in rates)
            {
                conditions.Add((form.At, rate.At, form.Weight * rate.Weight));
            }
        }

        return conditions;
    }

    private void Prepare(double form, double rate, ReadOnlySpan<double> effort)
    {
        for (int t = 0; t < topics.Length; t++)
        {
            topics[t].Prepare(Shift(form, rate, effort[t]));
        }
    }

    private double Shift(double form, double rate, double effort) => form + (rate * Learning.Effective(effort));

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

    private double PassChance(double[][] distributions)
    {
        if (rule.Total == 0)
        {
            double pass = 1;
            for (int s = 0; s < distributions.Length; s++)
            {
                pass *= PassRule.Tail(distributions[s], rule.SectionMinimum[s]);
            }

            return pass;
        }

        double[] all = [1.0];
        for (int s = 0; s < distributions.Length; s++)
        {
            all = Convolution.Of(all, distributions[s], rule.SectionMinimum[s]);
        }

        return PassRule.Tail(all, rule.Total);
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

    private void AddChanges(int[] members, int k, double weight, ReadOnlySpan<double> sectionValue, Span<EffortChange> gains, Span<EffortChange> losses)
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
            Span<double> worth = useful.AsSpan(0, topic.Items + 1);
            for (int count = 0; count < worth.Length; count++)
            {
                worth[count] = Spans.Dot(prefix, suffix.AsSpan(count, before + 1));
            }

            topic.AddChange(k, weight, worth, ref gains[members[i]], ref losses[members[i]]);
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
