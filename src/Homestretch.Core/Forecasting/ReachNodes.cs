using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Forecasting;

/// <summary>A few cases of how far a person gets in each section within its time limit.</summary>
/// <remarks>The pace of exam day is one for the whole exam: who is slow in one section is as slow in the others. So one number, how slow the day is, sets the
/// share reached in every section: the quantile of that section's own distribution. It is normal and integrated by Gauss rules; a day on which
/// every last item is reached is a case of its own.</remarks>
internal static class ReachNodes
{
    // Below this chance to miss an item of the exam, time is no matter.
    private const double Negligible = 1e-3;

    /// <summary>The cases; a single one where time is no matter or nothing is known of the pace.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="pace">The person's pace, if known.</param>
    /// <param name="parts">Parts of equal chance, each with two cases, into which days too slow for every item are cut; 0 for a single case in which the expected share is reached.</param>
    public static ReachNode[] Of(Exam exam, WorkingPace? pace, int parts)
    {
        double[][] chances =
        [
            .. exam.Sections.Select(s => pace is null || s.Minutes is not { } minutes ? [1.0] : Pace.ChancesToReach(pace, s.ScoredItems + s.UnscoredItems, minutes)),
        ];
        double all = chances.Min(c => c[^1]);
        ReachNode whole = new([.. exam.Sections.Select(_ => 1.0)], all);
        if (1 - all < Negligible)
        {
            return [whole with { Weight = 1 }];
        }

        if (parts == 0)
        {
            return [new ReachNode(Array.ConvertAll(chances, c => c.Average()), 1)];
        }

        all = all < Negligible ? 0 : all;
        List<ReachNode> nodes = [];
        for (int part = 0; part < parts; part++)
        {
            double from = all + ((1 - all) * part / parts);
            double to = all + ((1 - all) * (part + 1) / parts);
            foreach (Node slow in Gauss(Normal.InvCDF(0, 1, from), Normal.InvCDF(0, 1, to), to - from))
            {
                double chance = Normal.CDF(0, 1, slow.At);
                nodes.Add(new ReachNode(Array.ConvertAll(chances, c => Share(c, chance)), slow.Weight));
            }
        }

        return [.. nodes, .. all == 0 ? Array.Empty<ReachNode>() : [whole]];
    }

    // The two-point Gauss rule for the standard normal between two bounds: right for polynomials up to the third degree.
    private static Node[] Gauss(double from, double to, double mass)
    {
        double low = double.IsInfinity(from) ? 0 : Normal.PDF(0, 1, from);
        double high = double.IsInfinity(to) ? 0 : Normal.PDF(0, 1, to);
        double Edge(int power) => (low == 0 ? 0 : Math.Pow(from, power) * low) - (high == 0 ? 0 : Math.Pow(to, power) * high);
        double mean = Edge(0) / mass;
        double second = 1 + (Edge(1) / mass);
        double third = (2 * mean) + (Edge(2) / mass);
        double variance = second - (mean * mean);
        double skew = third - (3 * mean * second) + (2 * mean * mean * mean);

        // Roots of x^2 - (skew / variance) x - variance, measured from the mean.
        double middle = skew / variance / 2;
        double half = Math.Sqrt((middle * middle) + variance);
        double upper = mass * (half - middle) / (2 * half);
        return [new Node(mean + middle - half, mass - upper), new Node(mean + middle + half, upper)];
    }

    // The share of items up to which the chance to get so far is still as large as given, between items by a straight line.
    private static double Share(double[] chances, double chance)
    {
        if (chances[^1] >= chance)
        {
            return 1;
        }

        int first = Array.FindIndex(chances, c => c < chance);
        if (first == 0)
        {
            return 0;
        }

        double place = first + ((chances[first - 1] - chance) / (chances[first - 1] - chances[first]));

        // An item is under way when time runs out: half of it on average.
        return (place - 0.5) / chances.Length;
    }
}
