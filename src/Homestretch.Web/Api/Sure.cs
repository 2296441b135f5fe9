namespace Homestretch.Web.Api;

/// <summary>Confirms what cannot be undone.</summary>
/// <param name="IsSure">Must be true.</param>
public sealed record Sure([property: System.Text.Json.Serialization.JsonPropertyName("sure")] bool IsSure);
