using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>One model tried on a test's answers.</summary>
/// <param name="Model">The model.</param>
/// <param name="Calibration">Its fit; null where the answers cannot carry it.</param>
/// <param name="Refusal">Why they cannot, one sentence; null where they can.</param>
public sealed record ModelTrial(ItemModel Model, MarginalCalibration? Calibration, string? Refusal);
