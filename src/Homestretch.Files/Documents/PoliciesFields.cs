using System.Text.Json.Serialization;

namespace Homestretch.Files.Documents;

/// <summary>What each policy leads to on exam day.</summary>
/// <param name="None">No study at all: what the forecast says.</param>
/// <param name="PracticeOrder">The order coaches use.</param>
/// <param name="Optimised">The minutes that make a pass most likely.</param>
public sealed record PoliciesFields(
    PolicyFields None,
    [property: JsonPropertyName("practice-order")] PolicyFields PracticeOrder,
    PolicyFields Optimised);
