namespace Homestretch.Core.Laboratory;

/// <summary>How much better one policy is than another, on the same candidates with the same luck.</summary>
/// <param name="Policy">The one.</param>
/// <param name="Against">The other.</param>
/// <param name="Points">Difference of the shares that passed, 0 to 1; above 0 where the one is better.</param>
/// <param name="StandardError">Its standard error; candidates who pass or fail under both add nothing to it.</param>
public readonly record struct PairedDifference(LaboratoryPolicy Policy, LaboratoryPolicy Against, double Points, double StandardError);
