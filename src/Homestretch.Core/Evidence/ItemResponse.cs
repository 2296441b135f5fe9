namespace Homestretch.Core.Evidence;

/// <summary>The answer to one item.</summary>
/// <param name="Topic">The topic's name.</param>
/// <param name="Subtopic">The subtopic's name, if known.</param>
/// <param name="Item">The item's label in its test.</param>
/// <param name="Correct">Whether the answer was correct; an omitted answer is not.</param>
/// <param name="Seconds">Time taken, if known; above zero.</param>
/// <param name="Sureness">How sure the person said they were, 0 (a guess) to 1 (certain), if asked.</param>
public sealed record ItemResponse(string Topic, string? Subtopic, string Item, bool Correct, double? Seconds, double? Sureness)
    : Observation(Topic, Subtopic)
{
    /// <inheritdoc/>
    public override int ItemCount => 1;

    /// <summary>Whether the item was left blank; then <see cref="Correct"/> is false.</summary>
    public bool Omitted { get; init; }

    /// <summary>The option chosen, if known.</summary>
    public string? Chosen { get; init; }

    /// <summary>The correct option, if known.</summary>
    public string? Key { get; init; }
}
