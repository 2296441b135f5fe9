namespace Homestretch.Core.Blueprints;

/// <summary>A pass mark, in the form in which it was published.</summary>
public abstract record CutScore
{
    /// <summary>The fewest correct answers out of <paramref name="items"/> scored items that reach the mark.
    /// <paramref name="items"/> + 1 when no count reaches it.</summary>
    public abstract int RequiredCorrect(int items);
}
