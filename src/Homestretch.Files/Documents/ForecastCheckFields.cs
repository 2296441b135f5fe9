using System.Collections.Immutable;

using Homestretch.Core.Laboratory;

namespace Homestretch.Files.Documents;

/// <summary>How forecasts of passing held against what happened.</summary>
/// <param name="MeanForecast">Mean forecast.</param>
/// <param name="Observed">Share that passed.</param>
/// <param name="Error">Mean distance between forecast and share over tenths of the scale, weighted by forecasts.</param>
/// <param name="ErrorByChance">What that would be on average if every forecast were right.</param>
/// <param name="Tenths">Tenths of the scale with forecasts in them, from below.</param>
public sealed record ForecastCheckFields(double MeanForecast, double Observed, double Error, double ErrorByChance, ImmutableArray<ForecastTenth> Tenths)
{
    internal static ForecastCheckFields Of(ForecastCheck check) => new(check.MeanForecast, check.Observed, check.Error, check.ErrorByChance, check.Tenths);
}
