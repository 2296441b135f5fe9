using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>How well the pass chance is known: its posterior, over what is not known of the person's abilities.</summary>
/// <param name="Mean">The pass chance of the forecast, 0 to 1.</param>
/// <param name="Sd">Standard deviation: how far the pass chance would typically move if all abilities became known.</param>
/// <param name="Low">5 % point: the lower end of the 90 % interval.</param>
/// <param name="High">95 % point.</param>
public readonly record struct PassSureness(double Mean, double Sd, double Low, double High)
{
    /// <summary>Where a pass becomes likelier than a failure.</summary>
    public const double EvenChance = 0.5;

    private const int Points = 600;
    private const double Tail = 0.05;

    /// <summary>Whether the whole 90 % interval lies on one side of an even chance.</summary>
    public bool Settled => Low > EvenChance || High < EvenChance;

    /// <summary>From the joint posterior of the abilities.</summary>
    /// <remarks>The pass chance is a function of all abilities at once, so the integral is taken over points spread evenly through their joint posterior
    /// (multiples of square roots of primes: Richtmyer 1951), without any chance in it. The standard deviation is good to about a tenth of a
    /// point, the ends of the interval to about a point.</remarks>
    internal static PassSureness Of(AbilityPosterior posterior, PassByAbility pass, double mean)
    {
        int topics = posterior.Curves.Length;
        double[] steps = SquareRootsOfPrimes(topics + 1);
        double[] nodes = Cumulate(posterior.Weights.AsSpan());
        double[][][] abilities = [.. Enumerable.Range(0, topics).Select(t =>
            Enumerable.Range(0, posterior.Nodes.Length).Select(k => Cumulate(posterior.Conditional(t, k).Density.AsSpan())).ToArray())];
        double[] chances = new double[Points];
        int[] point = new int[topics];
        double square = 0;
        double sum = 0;
        for (int i = 0; i < Points; i++)
        {
            int node = At(nodes, Fraction((i + 0.5) * steps[0]));
            for (int t = 0; t < topics; t++)
            {
                point[t] = posterior.Conditional(t, node).Start + At(abilities[t][node], Fraction((i + 0.5) * steps[t + 1]));
            }

            chances[i] = pass.PassChance(point);
            sum += chances[i];
            square += chances[i] * chances[i];
        }

        Array.Sort(chances);
        double variance = (square / Points) - (sum / Points * (sum / Points));
        return new PassSureness(mean, Math.Sqrt(Math.Max(0, variance)), chances[(int)(Tail * Points)], chances[Points - 1 - (int)(Tail * Points)]);
    }

    private static double Fraction(double value) => value - Math.Floor(value);

    private static double[] Cumulate(ReadOnlySpan<double> weights)
    {
        double[] below = new double[weights.Length];
        double sum = 0;
        for (int i = 0; i < below.Length; i++)
        {
            below[i] = sum += weights[i];
        }

        return below;
    }

    private static int At(double[] cumulative, double share)
    {
        int found = Array.BinarySearch(cumulative, share * cumulative[^1]);
        return Math.Min(found < 0 ? ~found : found, cumulative.Length - 1);
    }

    private static double[] SquareRootsOfPrimes(int count)
    {
        List<int> primes = [];
        for (int candidate = 2; primes.Count < count; candidate++)
        {
            if (primes.TrueForAll(p => candidate % p != 0))
            {
                primes.Add(candidate);
            }
        }

        return [.. primes.Select(p => Math.Sqrt(p))];
    }
}
