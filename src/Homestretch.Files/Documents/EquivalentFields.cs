using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>What a score is worth on the other test.</summary>
/// <param name="Value">Correct answers on the other test.</param>
/// <param name="StandardError">Its standard error; null where the data do not determine it.</param>
public sealed record EquivalentFields(double Value, double? StandardError)
{
    internal static EquivalentFields Of(Estimate estimate)
        => new(estimate.Value, double.IsFinite(estimate.StandardError) ? estimate.StandardError : null);
}
