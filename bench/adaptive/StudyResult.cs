using System.Collections.Immutable;

namespace Homestretch.Adaptive;

/// <summary>How well one design found out pass chances.</summary>
/// <param name="Design">The design.</param>
/// <param name="SquaredError">Mean squared error of the pass chance against the true one after 0, 1, 2, ... items.</param>
/// <param name="StandardError">Its standard error over people, in the same places.</param>
/// <param name="ItemsAtStop">Mean number of items at which the stopping rule would have ended it; the length of the study where it would not.</param>
/// <param name="SquaredErrorAtStop">Mean squared error there.</param>
/// <param name="RightSideAtStop">Share of people whose pass chance was then on the right side of an even chance.</param>
/// <param name="MostShown">The largest share of people who were given one and the same item.</param>
public sealed record StudyResult(
    Design Design,
    ImmutableArray<double> SquaredError,
    ImmutableArray<double> StandardError,
    double ItemsAtStop,
    double SquaredErrorAtStop,
    double RightSideAtStop,
    double MostShown)
{
    /// <summary>Items at which this design is as accurate as another one after <paramref name="items"/>, between whole items by a straight line; null when it never is.</summary>
    public double? ItemsToMatch(StudyResult other, int items)
    {
        ArgumentNullException.ThrowIfNull(other);
        double wanted = other.SquaredError[items];
        for (int n = 1; n < SquaredError.Length; n++)
        {
            if (SquaredError[n] <= wanted)
            {
                return n - 1 + ((SquaredError[n - 1] - wanted) / (SquaredError[n - 1] - SquaredError[n]));
            }
        }

        return null;
    }
}
