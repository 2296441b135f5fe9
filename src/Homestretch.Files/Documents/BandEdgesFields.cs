namespace Homestretch.Files.Documents;

/// <summary>Where weak ends and strong begins, as chances of a correct answer.</summary>
/// <param name="WeakBelow">Below this a level is weak, 0 to 1.</param>
/// <param name="StrongFrom">From this on it is strong, 0 to 1.</param>
public sealed record BandEdgesFields(double WeakBelow, double StrongFrom);
