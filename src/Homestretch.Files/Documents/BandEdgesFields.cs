namespace Homestretch.Files.Documents;

/// <summary>Where weak ends and strong begins, as chances of a correct answer.</summary>
public sealed record BandEdgesFields(double WeakBelow, double StrongFrom);
