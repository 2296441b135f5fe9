using System.Numerics.Tensors;

namespace Homestretch.Core.Measurement;

/// <summary>Equally spaced nodes for a standard normal ability, with normalised weights.</summary>
/// <remarks>For integrands as smooth as a posterior the trapezoidal rule converges geometrically: with a posterior of width sd the relative error is
/// about exp(-2 (pi sd / step)^2) (Trefethen &amp; Weideman, SIAM Review 56, 2014). Beyond six standard deviations lie two persons in a thousand million.</remarks>
internal sealed class AbilityNodes
{
    private const double Reach = 6;

    // Twenty times below the smallest step that shows in the sixth decimal of a person's likelihood.
    private const double StepInPosteriorSds = 0.85;

    public AbilityNodes(int count)
    {
        // Whole vectors only, so that inner loops have no remainder.
        Count = (count + 7) / 8 * 8;
        Values = new double[Count];
        LogWeights = new double[Count];
        double step = 2 * Reach / (Count - 1);
        for (int k = 0; k < Count; k++)
        {
            Values[k] = -Reach + (k * step);
            LogWeights[k] = -0.5 * Values[k] * Values[k];
        }

        double total = 0;
        foreach (double log in LogWeights)
        {
            total += Math.Exp(log);
        }

        TensorPrimitives.Subtract(LogWeights, Math.Log(total), LogWeights);
    }

    public int Count { get; }

    public double[] Values { get; }

    public double[] LogWeights { get; }

    /// <summary>Nodes needed where the test's information never exceeds <paramref name="information"/>.</summary>
    public static int Needed(double information)
    {
        double sd = 1 / Math.Sqrt(1 + information);
        return Math.Clamp((int)Math.Ceiling(2 * Reach / (StepInPosteriorSds * sd)) + 1, 40, 2000);
    }
}
