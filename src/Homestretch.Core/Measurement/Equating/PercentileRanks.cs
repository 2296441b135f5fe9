namespace Homestretch.Core.Measurement.Equating;

/// <summary>Percentile ranks of scores: each score's share is spread evenly over half a point to either side.</summary>
/// <remarks>Kolen &amp; Brennan 2004, section 2.5.1. Ranks here run from 0 to 1.</remarks>
internal sealed class PercentileRanks
{
    private readonly double[] shares;
    private readonly double[] below;

    /// <param name="shares">Share of each score from 0 up; they sum to 1.</param>
    public PercentileRanks(double[] shares)
    {
        this.shares = shares;
        below = new double[shares.Length + 1];
        for (int j = 0; j < shares.Length; j++)
        {
            below[j + 1] = below[j] + shares[j];
        }
    }

    /// <summary>The rank of a score.</summary>
    public double Rank(double score)
    {
        int cell = Cell(score);
        return below[cell] + (shares[cell] * (score - cell + 0.5));
    }

    /// <summary>The score of a rank. Where nobody scored over a stretch, many scores have the rank, and their middle is taken.</summary>
    public double Score(double rank)
    {
        // Sums of shares differ from the rank they stand for by rounding only.
        const double Same = 1e-12;
        int last = shares.Length - 1;
        int upper = 0;
        while (upper < last && (below[upper + 1] <= rank + Same || shares[upper] == 0))
        {
            upper++;
        }

        int lower = last;
        while (lower > 0 && (below[lower] >= rank - Same || shares[lower] == 0))
        {
            lower--;
        }

        return (At(upper, rank, 1) + At(lower, rank, 0)) / 2;
    }

    /// <summary>Share of people per point of score.</summary>
    public double Density(double score) => shares[Cell(score)];

    /// <summary>How much each score's share counts in the rank of <paramref name="score"/>.</summary>
    public double[] Weights(double score)
    {
        double[] weights = new double[shares.Length];
        int cell = Cell(score);
        Array.Fill(weights, 1.0, 0, cell);
        weights[cell] = score - cell + 0.5;
        return weights;
    }

    private int Cell(double score) => Math.Clamp((int)Math.Floor(score + 0.5), 0, shares.Length - 1);

    // Only at the ends of the scale is a cell without people asked for; its outer edge is the end.
    private double At(int cell, double rank, double end)
        => cell - 0.5 + (shares[cell] == 0 ? end : Math.Clamp((rank - below[cell]) / shares[cell], 0, 1));
}
