using System.Collections.Immutable;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Finds, item after item, what a further answer would add to the answers already chosen.</summary>
/// <remarks>The information of an item is the expected squared change of the target's chance through its answer, which for one answer is cov(answer, target)^2 /
/// var(answer). After answers already chosen the same formula is used with what the best straight line in those answers leaves over: forward selection
/// by least squares. For a set the sum is what the best straight line in its answers foretells: never more than the whole information of the set.</remarks>
internal sealed class ItemSearch
{
    // An answer that the others foretell up to this much of its variance adds nothing.
    private const double Foretold = 1e-9;

    private readonly Func<int, int, double> covariance;
    private readonly double[] whole;
    private readonly double[] left;
    private readonly double[][] targets;
    private readonly List<double[]> chosen = [];

    /// <param name="items">Number of items.</param>
    /// <param name="covariance">Covariance of the answers to two items.</param>
    /// <param name="targets">For each item, the covariance of its answer with each target.</param>
    public ItemSearch(int items, Func<int, int, double> covariance, IEnumerable<ImmutableArray<double>> targets)
    {
        this.covariance = covariance;
        this.targets = [.. targets.Select(t => t.ToArray())];
        whole = [.. Enumerable.Range(0, items).Select(i => covariance(i, i))];
        left = [.. whole];
    }

    /// <summary>Expected squared change of the targets' chances that the answer to an item adds, summed over the targets.</summary>
    public double Information(int item)
    {
        if (left[item] <= Foretold * whole[item])
        {
            return 0;
        }

        double sum = 0;
        foreach (double target in targets[item])
        {
            sum += target * target;
        }

        return sum / left[item];
    }

    /// <summary>Takes the answer to an item as given.</summary>
    public void Take(int item)
    {
        if (left[item] <= Foretold * whole[item])
        {
            return;
        }

        double root = Math.Sqrt(left[item]);
        double[] own = targets[item].ToArray();
        double[] loadings = new double[left.Length];
        for (int i = 0; i < loadings.Length; i++)
        {
            double shared = covariance(i, item);
            foreach (double[] earlier in chosen)
            {
                shared -= earlier[i] * earlier[item];
            }

            loadings[i] = shared / root;
        }

        for (int i = 0; i < loadings.Length; i++)
        {
            left[i] -= loadings[i] * loadings[i];
            for (int m = 0; m < own.Length; m++)
            {
                targets[i][m] -= loadings[i] * own[m] / root;
            }
        }

        chosen.Add(loadings);
    }
}
