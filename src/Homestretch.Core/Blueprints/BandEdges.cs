namespace Homestretch.Core.Blueprints;

/// <summary>Where weak ends and strong begins, as chances of a correct answer.</summary>
/// <remarks>Common practice, no source: weak below 50 %, strong from 65 to 70 % up; the default takes the middle.</remarks>
public readonly record struct BandEdges
{
    /// <summary>Weak below 50 %, strong from 67.5 %.</summary>
    public static BandEdges Default { get; } = new(0.5, 0.675);

    /// <param name="weakBelow">Above 0, below <paramref name="strongFrom"/>.</param>
    /// <param name="strongFrom">Below 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The edges are not 0 &lt; weakBelow &lt; strongFrom &lt; 1.</exception>
    public BandEdges(double weakBelow, double strongFrom)
    {
        if (!(weakBelow > 0 && weakBelow < strongFrom && strongFrom < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(weakBelow), $"Band edges must be 0 < weak < strong < 1; {weakBelow} and {strongFrom} are not.");
        }

        WeakBelow = weakBelow;
        StrongFrom = strongFrom;
    }

    /// <summary>A chance of a correct answer below this is weak.</summary>
    public double WeakBelow { get; }

    /// <summary>A chance of a correct answer from this up is strong.</summary>
    public double StrongFrom { get; }
}
