namespace Homestretch.Files.Documents;

/// <summary>Two policies on the same simulated candidates.</summary>
/// <param name="Policy">The one.</param>
/// <param name="Against">The other.</param>
/// <param name="Difference">Difference of the shares that passed; above 0 where the one is better.</param>
/// <param name="StandardError">Its standard error.</param>
public sealed record PairedDifferenceFields(string Policy, string Against, double Difference, double StandardError);
