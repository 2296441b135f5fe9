namespace Homestretch.Core.Measurement;

/// <summary>Whether one person gets through one section at the pace of this test.</summary>
/// <param name="Person">The person.</param>
/// <param name="Section">The section.</param>
/// <param name="Forecast">The forecast.</param>
public sealed record PersonPace(string Person, string Section, PaceForecast Forecast);
