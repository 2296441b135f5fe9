using NodaTime;

namespace Homestretch.Core.Evidence;

/// <summary>Study that took place.</summary>
/// <param name="Candidate">The person.</param>
/// <param name="Topic">The topic's name exactly as in the blueprint.</param>
/// <param name="Date">The day.</param>
/// <param name="Minutes">Minutes of study, one or more.</param>
/// <param name="Kind">How.</param>
public sealed record StudySession(string Candidate, string Topic, LocalDate Date, int Minutes, StudyKind Kind)
{
    /// <summary>Name of the plan's block that was done, where the person named one.</summary>
    public string? Block { get; init; }
}
