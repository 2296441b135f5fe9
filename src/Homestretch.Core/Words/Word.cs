using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>A term that a person did not know and wants to know on exam day.</summary>
/// <param name="Term">The term.</param>
/// <param name="Noted">The day on which it was noted.</param>
public sealed record Word(string Term, LocalDate Noted)
{
    /// <summary>Name of the exam's topic that it belongs to; null where nobody said.</summary>
    public string? Topic { get; init; }

    /// <summary>What it means, in the person's own words; null where nothing was written.</summary>
    public string? OwnDefinition { get; init; }

    /// <summary>What it means, in the coach's words; null where nothing was written.</summary>
    public string? CoachDefinition { get; init; }

    /// <summary>The answers so far, in the order in which they were given.</summary>
    public ImmutableArray<RecallAnswer> Answers { get; init; } = [];

    /// <summary>Whether there is anything to learn from; without a definition a word cannot be practised.</summary>
    public bool HasDefinition => OwnDefinition is not null || CoachDefinition is not null;

    /// <summary>The word as it was on a day: later answers do not count yet.</summary>
    public Word AsOf(LocalDate day) => this with { Answers = [.. Answers.Where(a => a.Day <= day)] };
}
