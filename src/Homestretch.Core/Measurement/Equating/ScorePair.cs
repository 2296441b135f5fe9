namespace Homestretch.Core.Measurement.Equating;

/// <summary>One person's correct answers on two tests.</summary>
/// <param name="First">On the test that is converted.</param>
/// <param name="Second">On the test it is converted to.</param>
public readonly record struct ScorePair(int First, int Second);
