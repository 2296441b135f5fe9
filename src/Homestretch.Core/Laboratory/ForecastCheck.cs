using System.Collections.Immutable;

namespace Homestretch.Core.Laboratory;

/// <summary>How forecasts of passing held against what happened.</summary>
/// <param name="MeanForecast">Mean forecast.</param>
/// <param name="Observed">Share that passed.</param>
/// <param name="Error">Mean distance between forecast and share over tenths of the scale, weighted by forecasts.</param>
/// <param name="ErrorByChance">What that error would be on average, by chance alone, if every forecast were right.</param>
/// <param name="Tenths">For each tenth of the scale with forecasts in it: forecasts, their mean, the share that passed.</param>
public sealed record ForecastCheck(double MeanForecast, double Observed, double Error, double ErrorByChance, ImmutableArray<ForecastTenth> Tenths)
{
    internal static ForecastCheck Of(ReadOnlySpan<long> counts, ReadOnlySpan<long> sums, ReadOnlySpan<long> passes, double unit)
    {
        ImmutableArray<ForecastTenth>.Builder tenths = ImmutableArray.CreateBuilder<ForecastTenth>();
        double all = 0;
        for (int i = 0; i < counts.Length; i++)
        {
            all += counts[i];
            if (counts[i] > 0)
            {
                tenths.Add(new ForecastTenth(counts[i], sums[i] / unit / counts[i], (double)passes[i] / counts[i]));
            }
        }

        // The mean distance of a share of n from its chance f is about sqrt(2 f (1 - f) / (pi n)).
        return new ForecastCheck(
            tenths.Sum(t => t.Count * t.MeanForecast) / all,
            tenths.Sum(t => t.Count * t.Observed) / all,
            tenths.Sum(t => t.Count * Math.Abs(t.MeanForecast - t.Observed)) / all,
            tenths.Sum(t => t.Count * Math.Sqrt(2 * t.MeanForecast * (1 - t.MeanForecast) / (Math.PI * t.Count))) / all,
            tenths.ToImmutable());
    }
}
