namespace Homestretch.Files.Documents;

/// <summary>How likely each level is; the three sum to 1.</summary>
public sealed record BandChancesFields(double Weak, double Borderline, double Strong);
