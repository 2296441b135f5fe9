namespace Homestretch.Core.Calibration;

/// <summary>One person's forecast in one split, and what happened.</summary>
/// <param name="Person">Number of the person.</param>
/// <param name="Split">Number of the split.</param>
/// <param name="Chances">Pass chance for each mark of the study.</param>
/// <param name="Plain">The same by the plain share correct and a binomial.</param>
/// <param name="Passed">Whether each mark was reached.</param>
/// <param name="Pit">Where the correct answers fell in their forecast, made continuous by a random draw: uniform when forecasts are right (Czado, Gneiting &amp; Held 2009).</param>
internal readonly record struct SplitForecast(int Person, int Split, double[] Chances, double[] Plain, bool[] Passed, double Pit);
