namespace Homestretch.Core.Measurement;

/// <summary>What is odd about an item.</summary>
public enum ItemConcern
{
    /// <summary>Nearly everyone answers it: it tells little about anyone.</summary>
    TooEasy,

    /// <summary>Answered no more often than by guessing.</summary>
    TooHard,

    /// <summary>Those who answer it do no better on the other items.</summary>
    DoesNotSeparate,

    /// <summary>Those who do well on the other items choose another option, or get it wrong.</summary>
    ProbablyMiskeyed,

    /// <summary>Many people leave it blank and go on.</summary>
    OftenOmitted,

    /// <summary>Many people do not get as far as this item.</summary>
    OftenNotReached,
}
