namespace Homestretch.Core.Blueprints;

/// <summary>What the exam owner allows after a failed attempt.</summary>
/// <param name="WaitingDays">Days to wait, zero or more.</param>
/// <param name="AttemptsPerYear">Attempts in twelve months, or null where no limit is published.</param>
public sealed record RetakeRule(int WaitingDays, int? AttemptsPerYear);
