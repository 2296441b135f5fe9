using System.Collections.Immutable;

namespace Homestretch.Files.Exams.Editing;

/// <summary>What a section adds up to as far as it has been typed.</summary>
/// <param name="Name">Its name as typed; "Section 2" where there is none yet.</param>
/// <param name="ScoredItems">Scored items; null where they cannot be read.</param>
/// <param name="UnscoredItems">Unscored items.</param>
/// <param name="Minutes">Time limit, in minutes; null where none is given.</param>
/// <param name="WeightsInItems">Whether the weights are numbers of items; null where they are of different units, or none can be read.</param>
/// <param name="LowSum">Sum of the weights, or of the lower ends of their ranges, over those that can be read.</param>
/// <param name="HighSum">The same of the upper ends.</param>
/// <param name="Unreadable">Topics whose weight is missing or cannot be read.</param>
/// <param name="Topics">Its topics in order: name as typed, and the items they come to; null where that cannot be said yet.</param>
public sealed record SectionSum(
    string Name,
    int? ScoredItems,
    int UnscoredItems,
    int? Minutes,
    bool? WeightsInItems,
    double LowSum,
    double HighSum,
    int Unreadable,
    ImmutableArray<(string Name, int? Items)> Topics)
{
    /// <summary>Minutes an item, scored or not; null where that is not known.</summary>
    public double? MinutesPerItem => Minutes is { } minutes && ScoredItems is { } items ? (double)minutes / (items + UnscoredItems) : null;

    /// <summary>The topic with the fewest items; null where there are fewer than two, or they are not known.</summary>
    public (string Name, int Items)? Smallest =>
        Topics.Length > 1 && Topics.All(t => t.Items is not null) ? Topics.Select(t => (t.Name, t.Items!.Value)).MinBy(t => t.Value) : null;
}
