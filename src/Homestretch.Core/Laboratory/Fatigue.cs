using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>Tired people learn less.</summary>
/// <param name="LeftPerHour">Each hour studied earlier on the same day leaves this share of what a session brings.</param>
/// <param name="LateFrom">A session that ends after this time of day ...</param>
/// <param name="LateShare">... brings this share.</param>
public sealed record Fatigue(double LeftPerHour, LocalTime LateFrom, double LateShare);
