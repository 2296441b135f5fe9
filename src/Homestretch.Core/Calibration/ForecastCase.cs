namespace Homestretch.Core.Calibration;

/// <summary>One forecast of passing and what became of it.</summary>
/// <param name="Chance">The pass chance forecast, 0 to 1.</param>
/// <param name="Passed">Whether the person passed.</param>
/// <param name="Person">Number of the person.</param>
/// <param name="Split">Number of the draw of items that the forecast belongs to; like <paramref name="Person"/> where every person is forecast once.</param>
public readonly record struct ForecastCase(double Chance, bool Passed, int Person, int Split);
