using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Core.Forecasting;

/// <summary>How far a person gets in a section with a time limit.</summary>
/// <param name="Section">The section.</param>
/// <param name="Reach">Items reached in time, scored and unscored.</param>
public sealed record SectionPace(Section Section, PaceForecast Reach);
