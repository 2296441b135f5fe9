namespace Homestretch.Core.Evidence;

/// <summary>How much easier one test is than the real exam, for everybody.</summary>
/// <param name="Logits">What the test adds to a person's ability against the exam, in logits; above 0 where the test is easier.</param>
/// <param name="Sd">Standard deviation of what is not known about that, in logits; null where nothing was said of it, and the usual spread between tests and exam stays.</param>
/// <param name="People">People from whose scores on both it was learned; null where a person stated it.</param>
/// <remarks>Percentage points are meant in the middle of the scale: for a person who answers correctly half-way between guessing and everything on the exam.</remarks>
public sealed record FormDifference(double Logits, double? Sd, int? People = null)
{
    /// <summary>Larger differences are no longer those of two tests of one blueprint, and with two options there is little more to tell.</summary>
    public const double MostPoints = 0.20;

    /// <summary>A difference given as a share of items.</summary>
    /// <param name="points">How much more of the test than of the exam is answered correctly: 0.04 for 4 percentage points easier; at most <see cref="MostPoints"/> to either side.</param>
    /// <param name="sd">Standard deviation of that, or null.</param>
    /// <param name="guess">Chance of guessing an item right, 0 to 0.5.</param>
    public static FormDifference OfPoints(double points, double? sd, double guess)
    {
        ArgumentOutOfRangeException.ThrowIfGreaterThan(Math.Abs(points), MostPoints, nameof(points));
        ArgumentOutOfRangeException.ThrowIfNegative(guess);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(guess, 0.5);
        double known = 0.5 + (points / (1 - guess));
        double logits = Math.Log(known / (1 - known));
        return new FormDifference(logits, sd / Slope(logits, guess));
    }

    /// <summary>The difference as a share of items, −1 to 1; above 0 where the test is easier.</summary>
    /// <param name="guess">Chance of guessing an item right.</param>
    public double Points(double guess) => (1 - guess) * (Logistic(Logits) - 0.5);

    /// <summary>Its standard deviation as a share of items; null where nothing was said of it.</summary>
    /// <param name="guess">Chance of guessing an item right.</param>
    public double? PointsSd(double guess) => Sd * Slope(Logits, guess);

    private static double Slope(double logits, double guess) => (1 - guess) * Logistic(logits) * (1 - Logistic(logits));

    private static double Logistic(double x) => 1 / (1 + Math.Exp(-x));
}
