using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Planning.Resources;

/// <summary>Material to study from.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Kind">What it is good for.</param>
/// <param name="Topics">Names of the exam's topics that it is about, at least one.</param>
/// <param name="Minutes">How long it takes on each of its topics, above 0; null where that is not known.</param>
/// <param name="Edition">The last day that its edition may be of: the day itself, or the end of its month or year; null where that is not known.</param>
/// <param name="Where">Page, shelf or address, where given.</param>
public sealed record StudyResource(string Title, ResourceKind Kind, ImmutableArray<string> Topics, int? Minutes, LocalDate? Edition, string? Where)
{
    /// <summary>Whether its edition is surely older than a blueprint of this day.</summary>
    public bool IsOlderThan(LocalDate? blueprint) => Edition < blueprint;
}
