namespace Homestretch.Calibration;

/// <summary>One person's forecast in one split, and what happened.</summary>
/// <param name="Distribution">Forecast chance of 0, 1, ... correct on the exam half.</param>
/// <param name="Raw">The same by the plain share correct and a binomial, for comparison.</param>
/// <param name="Correct">Correct answers on the exam half.</param>
/// <param name="Draw">A uniform draw for the randomised probability integral transform.</param>
internal sealed record SplitForecast(double[] Distribution, double[] Raw, int Correct, double Draw)
{
    public static double ChanceAtLeast(double[] distribution, int cut) => Math.Clamp(distribution.Skip(cut).Sum(), 0, 1);

    /// <summary>Where the outcome fell in the forecast, made continuous by the draw: uniform when forecasts are right (Czado, Gneiting and Held 2009).</summary>
    public double Pit => Distribution.Take(Correct).Sum() + (Draw * Distribution[Correct]);
}
