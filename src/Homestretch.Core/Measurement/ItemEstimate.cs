using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>One calibrated item.</summary>
/// <param name="Item">Its label.</param>
/// <param name="Curve">Estimated parameters.</param>
/// <param name="Errors">Their standard errors.</param>
public sealed record ItemEstimate(string Item, ItemCurve Curve, ItemCurveErrors Errors);
