using Homestretch.Core.Learning;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Standing;

/// <summary>Rates of learning to integrate over, given what tests after study say.</summary>
/// <remarks>Adaptive Gauss-Hermite quadrature (Naylor &amp; Smith 1982): the rule's nodes follow the posterior of the logarithm of the rate, found on a coarse grid
/// first; its weights are corrected by prior times likelihood at the nodes, so that only the smoothness of their ratio to a normal density matters.</remarks>
internal static class RatePosterior
{
    private const int Nodes = 5;
    private const int SearchNodes = 9;
    private const double SearchReach = 3.2;
    private const double Tail = 0.05;

    // Nodes lighter than this do not show in any figure.
    private const double Negligible = 1e-5;

    /// <summary>Rates with weights that sum to 1, slowest first, and what they say in words' terms.</summary>
    /// <param name="learning">The prior: log-normal.</param>
    /// <param name="logLikelihood">Log likelihood of all tests at a rate.</param>
    public static (Node[] Rates, RateStanding Standing) Find(LearningAssumptions learning, Func<double, double> logLikelihood)
    {
        double Rate(double z) => learning.RatePerHour * Math.Exp(learning.RateLogSd * z);
        if (learning.RateLogSd == 0)
        {
            return ([new Node(Rate(0), 1)], new RateStanding(Rate(0), Rate(0), Rate(0), learning.RatePerHour, 0));
        }

        double LogPosterior(double z) => (-0.5 * z * z) + logLikelihood(Rate(z));
        double[] at = [.. Enumerable.Range(0, SearchNodes).Select(i => SearchReach * ((2.0 * i / (SearchNodes - 1)) - 1))];
        (double mean, double sd) = Moments(at, [.. at.Select(LogPosterior)]);

        Node[] rule = GaussHermite.Normal(sd, Nodes);
        double[] z = [.. rule.Select(n => mean + n.At).Order()];
        double[] logs = [.. z.Select(v => LogPosterior(v) + (0.5 * (v - mean) * (v - mean) / (sd * sd)))];
        double[] weights = new double[z.Length];
        Spans.ExpFromMax(logs, weights);
        Node[] ordered = [.. rule.OrderBy(n => n.At)];
        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] *= ordered[i].Weight;
        }

        Spans.Divide(weights, Spans.Sum(weights));
        double middle = Spans.Dot(z, weights);
        double variance = z.Select((v, i) => weights[i] * (v - middle) * (v - middle)).Sum();
        double reach = Math.Sqrt(variance) * Normal.InvCDF(0, 1, 1 - Tail);
        Node[] rates = [.. z.Select((v, i) => new Node(Rate(v), weights[i])).Where(n => n.Weight > Negligible)];
        double kept = rates.Sum(n => n.Weight);
        return (
            Array.ConvertAll(rates, n => new Node(n.At, n.Weight / kept)),
            new RateStanding(Rate(middle), Rate(middle - reach), Rate(middle + reach), learning.RatePerHour, Math.Clamp(1 - variance, 0, 1)));
    }

    private static (double Mean, double Sd) Moments(double[] at, double[] logs)
    {
        double[] weights = new double[logs.Length];
        Spans.Normalise(logs, weights);
        double mean = Spans.Dot(at, weights);
        double variance = at.Select((v, i) => weights[i] * (v - mean) * (v - mean)).Sum();
        double spacing = at[1] - at[0];

        // A posterior narrower than the grid shows as too narrow a spread; the rule must not collapse onto one point.
        return (mean, Math.Max(Math.Sqrt(variance), spacing / 4));
    }
}
