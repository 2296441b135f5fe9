using System.Collections.Immutable;

using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Tests.Forecasting;

/// <summary>Draws people and forms of the exam that a standing allows.</summary>
internal sealed class SimulatedPerson(CandidateStanding standing, Random random)
{
    private readonly AbilityPosterior posterior = standing.Posterior;
    private readonly double[] nodes = Cumulate(standing.Posterior.Weights);
    private readonly double[][][] conditional =
        [.. standing.Exam.Topics.Select((_, t) => standing.Posterior.Nodes.Select((_, k) => Cumulate(standing.Posterior.Conditional(t, k).Density)).ToArray())];

    /// <summary>For each topic, the chance of a correct answer on one drawn form of the exam.</summary>
    public double[] Chances()
    {
        int node = Pick(nodes);
        double form = posterior.FormSd * Normal.Sample(random, 0, 1);
        return [.. standing.Exam.Topics.Select((_, t) =>
        {
            double ability = posterior.Grid[posterior.Conditional(t, node).Start + Pick(conditional[t][node])];
            return posterior.Curves[t].Chance(ability + form + (posterior.Assumptions.TopicFormSd * Normal.Sample(random, 0, 1)));
        })];
    }

    private static double[] Cumulate(ImmutableArray<double> weights)
    {
        double sum = 0;
        return [.. weights.Select(w => sum += w)];
    }

    private int Pick(double[] cumulative)
    {
        int index = Array.BinarySearch(cumulative, random.NextDouble() * cumulative[^1]);
        return index < 0 ? ~index : index;
    }
}
