namespace Homestretch.Files.Documents;

/// <summary>One figure that the standing takes for granted.</summary>
/// <param name="Name">Its name in docs/model.md, such as <c>AbilitySd</c>.</param>
/// <param name="Value">The value in force, in logits.</param>
/// <param name="Default">The documented default.</param>
/// <param name="Learned">Whether a cohort's results have replaced the default.</param>
/// <param name="StandardError">Standard error of a learned value; null where the default is in force or the results do not give one.</param>
public sealed record AssumptionFields(string Name, double Value, double Default, bool Learned, double? StandardError);
