using MathNet.Numerics;
using MathNet.Numerics.Integration;

namespace Homestretch.Core.Measurement;

/// <summary>Distribution of true shares correct: a beta distribution between two limits (Lord 1965; Hanson 1991).</summary>
/// <param name="Alpha">First shape, above zero.</param>
/// <param name="Beta">Second shape, above zero.</param>
/// <param name="Low">Lower limit, 0 or more.</param>
/// <param name="High">Upper limit, at most 1.</param>
public readonly record struct TrueScoreBeta(double Alpha, double Beta, double Low, double High)
{
    private const double Accuracy = 1e-10;

    /// <summary>Four parameters from the first four moments, or null where no such distribution lies within 0 to 1.</summary>
    /// <param name="mean">Mean.</param>
    /// <param name="variance">Variance, above zero.</param>
    /// <param name="skewness">Third standardised moment.</param>
    /// <param name="kurtosis">Fourth standardised moment (3 for a normal).</param>
    public static TrueScoreBeta? FourParameters(double mean, double variance, double skewness, double kurtosis)
    {
        // Pearson's type I by moments (Elderton & Johnson 1969; Hanson 1991).
        double g = skewness * skewness;
        double denominator = 6 + (3 * g) - (2 * kurtosis);
        double r = 6 * (kurtosis - g - 1) / denominator;
        if (!(variance > 0) || denominator == 0 || !(r > 0) || !double.IsFinite(r))
        {
            return null;
        }

        double root = (r + 2) * skewness / Math.Sqrt(((r + 2) * (r + 2) * g) + (16 * (r + 1)));
        double alpha = r / 2 * (1 - root);
        double beta = r / 2 * (1 + root);
        if (!(alpha > 0 && beta > 0))
        {
            return null;
        }

        double range = Math.Sqrt(variance * (r + 1) / (alpha * beta)) * r;
        double low = mean - (range * alpha / r);
        double high = low + range;
        return low >= 0 && high <= 1 ? new TrueScoreBeta(alpha, beta, low, high) : null;
    }

    /// <summary>Two parameters on 0 to 1 from mean and variance, or null where none fits.</summary>
    /// <param name="mean">Above 0, below 1.</param>
    /// <param name="variance">Above 0, below mean (1 - mean).</param>
    public static TrueScoreBeta? TwoParameters(double mean, double variance)
    {
        double sum = (mean * (1 - mean) / variance) - 1;
        return mean is > 0 and < 1 && variance > 0 && sum > 0 && double.IsFinite(sum)
            ? new TrueScoreBeta(mean * sum, (1 - mean) * sum, 0, 1)
            : null;
    }

    /// <summary>Share of people whose true share lies below <paramref name="share"/>.</summary>
    public double Below(double share)
    {
        double u = Math.Clamp((share - Low) / (High - Low), 0, 1);
        return u <= 0 ? 0 : u >= 1 ? 1 : SpecialFunctions.BetaRegularized(Alpha, Beta, u);
    }

    /// <summary>Mean of <paramref name="f"/> over people whose true share lies between two values; 0 where there are none.</summary>
    public double Mean(Func<double, double> f, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(f);
        double a = Math.Clamp((from - Low) / (High - Low), 0, 1);
        double b = Math.Clamp((to - Low) / (High - Low), 0, 1);
        if (b <= a)
        {
            return 0;
        }

        (double alpha, double beta, double low, double range) = (Alpha, Beta, Low, High - Low);
        double logScale = SpecialFunctions.GammaLn(alpha + beta) - SpecialFunctions.GammaLn(alpha) - SpecialFunctions.GammaLn(beta);
        double Density(double u) => u <= 0 || u >= 1 ? 0 : Math.Exp(logScale + ((alpha - 1) * Math.Log(u)) + ((beta - 1) * Math.Log(1 - u)));

        // Splitting at the mean keeps a narrow peak from falling between the nodes.
        double peak = Math.Clamp(alpha / (alpha + beta), a, b);
        double Part(Func<double, double> g, double x, double y)
            => y <= x ? 0 : DoubleExponentialTransformation.Integrate(u => Density(u) * g(low + (range * u)), x, y, Accuracy);

        // Shapes near zero put nearly all mass onto the ends, where quadrature loses some; dividing by the same quadrature keeps a mean of chances a chance.
        double mass = Part(_ => 1, a, peak) + Part(_ => 1, peak, b);
        return mass > double.Epsilon && double.IsFinite(mass)
            ? (Part(f, a, peak) + Part(f, peak, b)) / mass
            : f(low + (range * (a > peak ? a : b < peak ? b : peak)));
    }
}
