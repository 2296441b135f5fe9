using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Answers drawn from known curves.</summary>
internal static class SimulatedAnswers
{
    public static ResponseMatrix Draw(ItemCurve[] curves, int persons, double sd, int seed, double missing = 0)
    {
        Random random = new(seed);
        Answer[] rows = new Answer[persons * curves.Length];
        for (int p = 0; p < persons; p++)
        {
            double ability = sd * MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1);
            for (int j = 0; j < curves.Length; j++)
            {
                bool right = random.NextDouble() < curves[j].Chance(ability);
                rows[(p * curves.Length) + j] = random.NextDouble() < missing ? Answer.Missing : right ? Answer.Right : Answer.Wrong;
            }
        }

        return ResponseMatrix.Create([.. curves.Select((_, j) => $"i{j + 1}")], rows);
    }
}
