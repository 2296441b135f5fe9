namespace Homestretch.Files.Documents;

/// <summary>What the exam owner allows after a failed attempt.</summary>
/// <param name="WaitingDays">Days to wait.</param>
/// <param name="AttemptsPerYear">Attempts in twelve months; null where no limit is published.</param>
public sealed record RetakeFields(int WaitingDays, int? AttemptsPerYear);
