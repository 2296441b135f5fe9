using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Means and covariances, under a person's posterior, of answers not yet given (right 1, wrong 0), of a pass, and of the levels on topics.</summary>
/// <remarks>All are sums over the nodes of the overall ability and the grids of the topics' abilities; an item costs a few scalar products.</remarks>
internal sealed class AnswerMoments
{
    private readonly AbilityPosterior posterior;
    private readonly AbilityWithPass[] joint;
    private readonly int[] topics;
    private readonly double[][] curves;
    private readonly double[][] byNode;
    private readonly double[] chances;
    private readonly double[] passes;

    /// <param name="exam">The exam.</param>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="joint">The posterior of each topic's ability together with a pass.</param>
    /// <param name="bank">The bank.</param>
    /// <param name="items">Items of the bank, in the order in which they are numbered here.</param>
    public AnswerMoments(Exam exam, AbilityPosterior posterior, AbilityWithPass[] joint, ItemBank bank, ImmutableArray<BankItem> items)
    {
        this.posterior = posterior;
        this.joint = joint;
        Dictionary<string, int> places = exam.Topics.Select((t, i) => (t.Name, i)).ToDictionary(t => t.Name, t => t.i, StringComparer.Ordinal);
        topics = [.. items.Select(item => places[item.Topic])];
        curves = new double[items.Length][];
        foreach (IGrouping<int, int> onTopic in Enumerable.Range(0, items.Length).GroupBy(i => topics[i]))
        {
            CalibratedEvidence scale = new(bank, posterior.Curves[onTopic.Key], posterior.Grid, posterior.Assumptions);
            double[][] chancesOfRight = scale.Chances([.. onTopic.Select(i => items[i])], joint[onTopic.Key].Start, joint[onTopic.Key].Density.Length);
            foreach ((int item, double[] curve) in onTopic.Zip(chancesOfRight))
            {
                curves[item] = curve;
            }
        }

        byNode = [.. curves.Select((curve, i) => ByNode(topics[i], curve))];
        chances = [.. curves.Select((curve, i) => Spans.Dot(joint[topics[i]].Density, curve))];
        passes = [.. curves.Select((curve, i) => Spans.Dot(joint[topics[i]].Passing, curve))];
    }

    /// <summary>Chance of a right answer.</summary>
    public double Chance(int item) => chances[item];

    /// <summary>The pass chance after a right or a wrong answer.</summary>
    public double PassAfter(int item, bool right)
        => right ? passes[item] / chances[item] : (Pass(item) - passes[item]) / (1 - chances[item]);

    /// <summary>Covariance of a right answer with a pass.</summary>
    public double CovarianceWithPass(int item) => passes[item] - (chances[item] * Pass(item));

    /// <summary>Covariance of a right answer with the level on a topic being the one in question.</summary>
    public double CovarianceWith(int item, BandIndicator band)
        => (band.Topic == topics[item] ? WeightedDot(band.Topic, curves[item], band.Part) : AcrossNodes(byNode[item], band.ByNode))
            - (chances[item] * band.Chance);

    /// <summary>Covariance of right answers to two items; the variance where they are the same.</summary>
    public double Covariance(int item, int other)
        => (item == other ? chances[item] : topics[item] == topics[other] ? WeightedDot(topics[item], curves[item], curves[other]) : AcrossNodes(byNode[item], byNode[other]))
            - (chances[item] * chances[other]);

    /// <summary>The three levels on a topic, which are said of the exam's kind of items.</summary>
    public ImmutableArray<BandIndicator> Bands(ExamTopic examTopic, int topic, BandEdges edges)
    {
        ResponseCurve curve = posterior.ExamCurve(topic, examTopic.Name);
        AbilityGrid grid = posterior.Grid;
        GaussianKernel shift = new(posterior.ExamShiftSd(examTopic.Name), grid.Step);
        int points = joint[topic].Density.Length;
        double[] Below(double chance)
        {
            double ability = curve.Ability(chance);
            return shift.Smooth(points, i => grid.PartBelow(joint[topic].Start - shift.Reach + i, ability));
        }

        double[] weak = Below(edges.WeakBelow);
        double[] notStrong = Below(edges.StrongFrom);
        double[][] parts = [weak, [.. notStrong.Zip(weak, (n, w) => n - w)], [.. notStrong.Select(n => 1 - n)]];
        return [.. parts.Select(part => new BandIndicator(topic, part, ByNode(topic, part), Spans.Dot(joint[topic].Density, part)))];
    }

    private double Pass(int item) => Spans.Sum(joint[topics[item]].Passing);

    private double[] ByNode(int topic, double[] values)
    {
        double[] means = new double[posterior.Nodes.Length];
        for (int k = 0; k < means.Length; k++)
        {
            ConditionalAbility conditional = posterior.Conditional(topic, k);
            int from = Math.Max(conditional.Start, joint[topic].Start);
            int count = Math.Max(0, Math.Min(conditional.Start + conditional.Density.Length, joint[topic].Start + values.Length) - from);
            means[k] = count == 0 ? 0 : Spans.Dot(conditional.Density.AsSpan(from - conditional.Start, count), values.AsSpan(from - joint[topic].Start, count));
        }

        return means;
    }

    private double WeightedDot(int topic, double[] a, double[] b)
    {
        double[] density = joint[topic].Density;
        double sum = 0;
        for (int i = 0; i < density.Length; i++)
        {
            sum += density[i] * a[i] * b[i];
        }

        return sum;
    }

    private double AcrossNodes(double[] a, double[] b)
    {
        double sum = 0;
        for (int k = 0; k < a.Length; k++)
        {
            sum += posterior.Weights[k] * a[k] * b[k];
        }

        return sum;
    }
}
