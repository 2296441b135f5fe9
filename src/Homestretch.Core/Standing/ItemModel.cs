namespace Homestretch.Core.Standing;

/// <summary>Which parts of an item's curve were estimated.</summary>
public enum ItemModel
{
    /// <summary>Difficulty only; all items have slope 1 (Rasch 1960).</summary>
    Rasch,

    /// <summary>Difficulty and slope (Birnbaum 1968).</summary>
    TwoParameter,

    /// <summary>Difficulty, slope and guessing (Birnbaum 1968).</summary>
    ThreeParameter,
}
