using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>One recall of a word's meaning, with the definition looked at afterwards.</summary>
/// <param name="Day">The day.</param>
/// <param name="Outcome">How it went.</param>
public readonly record struct RecallAnswer(LocalDate Day, RecallOutcome Outcome);
