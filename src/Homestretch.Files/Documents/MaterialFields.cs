using Homestretch.Core.Planning.Resources;

namespace Homestretch.Files.Documents;

/// <summary>The part of a resource that belongs to a block.</summary>
/// <param name="Title">Title of the resource.</param>
/// <param name="From">Minutes into it where the part begins; null where its length is not known.</param>
/// <param name="To">Minutes into it where the part ends; null where its length is not known.</param>
/// <param name="Where">Page, shelf or address; null where not given.</param>
/// <param name="Sentence">All this in words.</param>
public sealed record MaterialFields(string Title, int? From, int? To, string? Where, string Sentence)
{
    /// <summary>The fields of a part.</summary>
    internal static MaterialFields Of(ResourcePart part) => new(part.Resource.Title, part.From, part.To, part.Resource.Where, part.Sentence);
}
