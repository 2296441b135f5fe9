using Homestretch.Core.Evidence;

namespace Homestretch.Core.Calibration;

/// <summary>One row of a reliability table: forecasts between two edges and what became of them.</summary>
/// <param name="From">Lowest pass chance in the row.</param>
/// <param name="To">Highest.</param>
/// <param name="Count">Forecasts in it.</param>
/// <param name="People">People they are about.</param>
/// <param name="MeanForecast">Mean forecast.</param>
/// <param name="Observed">Share that passed.</param>
/// <param name="Interval">90 % interval of that share.</param>
public readonly record struct CalibrationBin(double From, double To, int Count, int People, double MeanForecast, double Observed, ProportionInterval Interval)
{
    private const double Confidence = 0.9;

    /// <summary>The row of some cases.</summary>
    /// <param name="from">Lowest pass chance in the row.</param>
    /// <param name="to">Highest.</param>
    /// <param name="cases">One or more.</param>
    internal static CalibrationBin Of(double from, double to, IReadOnlyCollection<ForecastCase> cases)
    {
        double share = cases.Count(c => c.Passed) / (double)cases.Count;
        return new CalibrationBin(
            from,
            to,
            cases.Count,
            cases.Select(c => c.Person).Distinct().Count(),
            cases.Average(c => c.Chance),
            share,
            ProportionInterval.WilsonOfShare(share, IndependentCases(cases, share), Confidence));
    }

    /// <summary>How many independent cases would leave the share as uncertain as these do, which repeat people and items.</summary>
    /// <remarks>The variance of the share with errors that go together within a person and within a split (two-way clustering: Cameron, Gelbach &amp; Miller 2011).
    /// Where each case has its own person and split, that is the number of cases.</remarks>
    internal static double IndependentCases(IReadOnlyCollection<ForecastCase> cases, double share)
    {
        double Squares(Func<ForecastCase, int> cluster)
            => cases.GroupBy(cluster).Sum(g => Square(g.Sum(c => (c.Passed ? 1 : 0) - share)));
        double people = Squares(c => c.Person);
        double splits = Squares(c => c.Split);
        double own = cases.Count * share * (1 - share);
        double together = Math.Max(people + splits - own, Math.Max(people, splits));

        // All or none passed: nothing shows how they go together, so a person counts once.
        return together > 0 ? Math.Min(1, own / together) * cases.Count : cases.Select(c => c.Person).Distinct().Count();
    }

    private static double Square(double value) => value * value;
}
