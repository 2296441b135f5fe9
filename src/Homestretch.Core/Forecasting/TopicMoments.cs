using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Means and mean squares of one topic's chance of a correct answer, by node of the overall ability.</summary>
internal sealed class TopicMoments
{
    private const int DrawNodes = 5;

    private readonly int items;
    private readonly ResponseCurve curve;
    private readonly ConditionalAbility[] abilities;

    // Odds of not knowing an item at each ability.
    private readonly double[] odds;
    private readonly int start;
    private readonly Node[] draws;

    public TopicMoments(ExamTopic examTopic, int topic, AbilityPosterior posterior, int[] nodes)
    {
        items = examTopic.Items;
        curve = posterior.ExamCurve(topic, examTopic.Name);
        abilities = Array.ConvertAll(nodes, node => posterior.Conditional(topic, node));
        start = abilities.Min(a => a.Start);
        odds = [.. Enumerable.Range(start, abilities.Max(a => a.Start + a.Density.Length) - start).Select(i => Math.Exp(-posterior.Grid[i] - curve.Shift))];
        draws = GaussHermite.Normal(posterior.Assumptions.ExamTopicFormSd(examTopic.Name, items), DrawNodes);
    }

    /// <summary>Abilities at which chances are given.</summary>
    public int Points => odds.Length;

    /// <summary>Scored items on the topic.</summary>
    public int Items => items;

    /// <summary>At each ability: the chance averaged over the exam's draw of items, and the square of the chance averaged likewise.</summary>
    /// <param name="shift">What is added to every ability: form and study.</param>
    public (double[] Mean, double[] Square) Chances(double shift)
    {
        double[] mean = new double[odds.Length];
        double[] square = new double[odds.Length];
        foreach (Node draw in draws)
        {
            // The response curve, with the exponential of the sum as a product: one exponential for all abilities.
            double easier = Math.Exp(-shift - draw.At);
            for (int i = 0; i < odds.Length; i++)
            {
                double chance = curve.Guess + ((1 - curve.Guess) / (1 + (odds[i] * easier)));
                mean[i] += draw.Weight * chance;
                square[i] += draw.Weight * chance * chance;
            }
        }

        return (mean, square);
    }

    /// <summary>The average at one node of values given at each ability.</summary>
    public double At(int node, double[] values)
    {
        ConditionalAbility ability = abilities[node];
        return Spans.Dot(ability.Density.AsSpan(), values.AsSpan(ability.Start - start, ability.Density.Length));
    }
}
