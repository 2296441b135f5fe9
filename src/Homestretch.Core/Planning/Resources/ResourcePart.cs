using System.Globalization;

namespace Homestretch.Core.Planning.Resources;

/// <summary>The part of a resource that belongs to a block.</summary>
/// <param name="Resource">The resource.</param>
/// <param name="Topic">Name of the topic that the block is about. Where the resource has several, minutes count within what it holds on this one.</param>
/// <param name="From">Minutes into it where the part begins; null where it has no known length.</param>
/// <param name="To">Minutes into it where the part ends; null where it has no known length.</param>
public sealed record ResourcePart(StudyResource Resource, string Topic, int? From, int? To)
{
    /// <summary>As people say it: "Handbook of loans, minutes 40 to 80 (pages 12 to 30)".</summary>
    public string Sentence => string.Create(
        CultureInfo.InvariantCulture,
        $"{Resource.Title}{(From is { } from && To is { } to && (from > 0 || to < Resource.Minutes) ? $", minutes {from} to {to}{(Resource.Topics.Length > 1 ? $" of what it holds on {Topic}" : "")}" : "")}{(Resource.Where is { } where ? $" ({where})" : "")}");
}
