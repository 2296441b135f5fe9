using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using MathNet.Numerics;

namespace Homestretch.Core.Measurement;

/// <summary>Estimates from a cohort how fast people learn and how much they differ: rates and abilities are integrated out.</summary>
/// <remarks>
/// One person's tests say little about a rate, so the documented defaults stay in as a prior: the mean of the log rate as normal with twice the assumed
/// spread between people as its standard deviation; the logarithm of that spread as normal with standard deviation 0.5 (assumptions). The estimate is the mode of their posterior; with many people it is the maximum likelihood estimate.
/// Cost: people x nodes x one posterior each.
/// </remarks>
public static class RatePriorEstimator
{
    /// <summary>Fewer people than this say too little.</summary>
    public const int FewestPersons = 10;

    // Log rates reach this far from the assumed one, in steps fine against any spread that is allowed.
    private const double Reach = 3.5;
    private const double Step = 0.125;
    private const double SpreadOfLogSd = 0.5;
    private const double SmallestSd = 0.15;
    private const double LargestSd = 1.5;
    private const double DifferenceStep = 1e-3;

    /// <summary>Rates at which likelihoods are wanted, lowest first.</summary>
    public static double[] Rates(LearningAssumptions assumed)
    {
        ArgumentNullException.ThrowIfNull(assumed);
        int half = (int)Math.Round(Reach / Step);
        return [.. Enumerable.Range(-half, (2 * half) + 1).Select(i => assumed.RatePerHour * Math.Exp(i * Step))];
    }

    /// <summary>Estimates the prior.</summary>
    /// <param name="assumed">The defaults to start from.</param>
    /// <param name="logLikelihoods">Per person, the log likelihood of all tests at each of <see cref="Rates"/> (<see cref="StandingCalculator.RateLogLikelihoods"/>).</param>
    /// <exception cref="UnsuitableDataException">Fewer than <see cref="FewestPersons"/> people.</exception>
    public static RatePrior Estimate(LearningAssumptions assumed, IReadOnlyList<double[]> logLikelihoods)
    {
        ArgumentNullException.ThrowIfNull(assumed);
        ArgumentNullException.ThrowIfNull(logLikelihoods);
        if (logLikelihoods.Count < FewestPersons)
        {
            throw new UnsuitableDataException(
                $"A rate of learning needs at least {FewestPersons} people with recorded study and a test after it; there are {logLikelihoods.Count}.");
        }

        double[] logRates = Array.ConvertAll(Rates(assumed), Math.Log);
        double[][] likelihoods = [.. logLikelihoods.Select(logs =>
        {
            double top = logs.Max();
            return Array.ConvertAll(logs, l => Math.Exp(l - top));
        })];
        double middle = Math.Log(assumed.RatePerHour);
        double usual = Math.Log(Math.Max(SmallestSd, assumed.RateLogSd));

        double Loss(double mean, double logSd)
        {
            double sd = Math.Clamp(Math.Exp(logSd), SmallestSd, LargestSd);
            double outside = logSd - Math.Log(sd);
            double[] weights = Array.ConvertAll(logRates, r => Math.Exp(-0.5 * (r - mean) * (r - mean) / (sd * sd)));
            double all = weights.Sum();
            double log = 0;
            foreach (double[] person in likelihoods)
            {
                double sum = 0;
                for (int i = 0; i < person.Length; i++)
                {
                    sum += weights[i] * person[i];
                }

                log += Math.Log(sum / all);
            }

            double meanPrior = (mean - middle) / (2 * Math.Exp(usual));
            double sdPrior = (logSd - usual) / SpreadOfLogSd;
            return (0.5 * meanPrior * meanPrior) + (0.5 * sdPrior * sdPrior) + (100 * outside * outside) - log;
        }

        (double found, double foundLogSd) = FindMinimum.OfFunction(Loss, middle, usual, 1e-8, 2000);
        (double meanError, double sdError) = StandardErrors(Loss, found, foundLogSd);
        double spread = Math.Clamp(Math.Exp(foundLogSd), SmallestSd, LargestSd);
        return new RatePrior(logLikelihoods.Count, new Estimate(found, meanError), new Estimate(spread, sdError * spread));
    }

    // From the curvature at the mode, by central differences.
    private static (double Mean, double LogSd) StandardErrors(Func<double, double, double> loss, double mean, double logSd)
    {
        const double H = DifferenceStep;
        double centre = loss(mean, logSd);
        double a = (loss(mean + H, logSd) - (2 * centre) + loss(mean - H, logSd)) / (H * H);
        double d = (loss(mean, logSd + H) - (2 * centre) + loss(mean, logSd - H)) / (H * H);
        double b = (loss(mean + H, logSd + H) - loss(mean + H, logSd - H) - loss(mean - H, logSd + H) + loss(mean - H, logSd - H)) / (4 * H * H);
        double determinant = (a * d) - (b * b);
        return determinant > 0 && a > 0
            ? (Math.Sqrt(d / determinant), Math.Sqrt(a / determinant))
            : (double.PositiveInfinity, double.PositiveInfinity);
    }
}
