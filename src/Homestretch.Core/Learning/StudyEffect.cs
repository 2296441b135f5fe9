namespace Homestretch.Core.Learning;

/// <summary>What an hour of one kind of study does, against an hour of material that teaches.</summary>
/// <param name="Gain">What is gained at once, as a share.</param>
/// <param name="Forgetting">How fast it is forgotten: multiplies the exponent of the retention law.</param>
public readonly record struct StudyEffect(double Gain, double Forgetting);
