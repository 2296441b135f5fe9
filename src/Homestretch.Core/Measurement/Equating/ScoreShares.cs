using MathNet.Numerics.LinearAlgebra;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>Shares of people with each score from 0 to the number of items, as they were seen or smoothed.</summary>
/// <remarks>The smoothing is log-linear (Holland &amp; Thayer 1987, 2000): the logarithm of the shares is a polynomial of the score, by maximum likelihood, so that the first moments of
/// the scores, as many as its degree, are kept exactly.</remarks>
internal sealed class ScoreShares
{
    private const int MostSteps = 200;
    private const int MostHalvings = 40;
    private const double Converged = 1e-12;

    // Null where the shares are as they were seen: then each person moves their own score's share only.
    private readonly Matrix<double>? pull;

    private ScoreShares(double[] shares, Matrix<double>? pull, double logLikelihood)
    {
        Shares = shares;
        this.pull = pull;
        LogLikelihood = logLikelihood;
    }

    /// <summary>Share of each score; they sum to 1.</summary>
    public double[] Shares { get; }

    /// <summary>Log-likelihood of the scores under these shares.</summary>
    public double LogLikelihood { get; }

    /// <summary>Shares as they were seen.</summary>
    /// <param name="frequencies">People with each score.</param>
    public static ScoreShares Seen(ReadOnlySpan<int> frequencies)
    {
        double n = 0;
        foreach (int f in frequencies)
        {
            n += f;
        }

        double[] shares = new double[frequencies.Length];
        double log = 0;
        for (int j = 0; j < shares.Length; j++)
        {
            shares[j] = frequencies[j] / n;
            log += frequencies[j] == 0 ? 0 : frequencies[j] * Math.Log(shares[j]);
        }

        return new ScoreShares(shares, null, log);
    }

    /// <summary>Smoothed shares.</summary>
    /// <param name="frequencies">People with each score.</param>
    /// <param name="degree">Moments kept, one or more; there must be more different scores than that, or no such polynomial has a maximum.</param>
    public static ScoreShares Smoothed(ReadOnlySpan<int> frequencies, int degree)
    {
        int[] seen = frequencies.ToArray();
        double n = seen.Sum();
        Matrix<double> basis = Polynomials(seen.Length, degree);
        Vector<double> target = basis.TransposeThisAndMultiply(Vector<double>.Build.Dense(seen.Length, j => seen[j] / n));
        Vector<double> at = Vector<double>.Build.Dense(degree);
        Vector<double> shares = SharesAt(basis, at);
        double value = at * target - LogTotal(basis, at);
        for (int step = 0; step < MostSteps; step++)
        {
            Vector<double> gradient = target - basis.TransposeThisAndMultiply(shares);
            if (gradient.AbsoluteMaximum() < Converged)
            {
                break;
            }

            Vector<double> move = Curvature(basis, shares).Solve(gradient);
            double scale = 1;
            double next = value;
            for (int halving = 0; halving < MostHalvings; halving++, scale /= 2)
            {
                next = (at + (scale * move)) * target - LogTotal(basis, at + (scale * move));
                if (next >= value)
                {
                    break;
                }
            }

            at += scale * move;
            value = next;
            shares = SharesAt(basis, at);
        }

        // d shares / d frequencies by the implicit function theorem.
        Matrix<double> spread = Spread(basis, shares);
        Matrix<double> pull = spread * Curvature(basis, shares).Solve(basis.Transpose());
        return new ScoreShares(shares.ToArray(), pull, n * value);
    }

    /// <summary>For a weighing of the shares: how one person with each score moves its sum, up to a constant.</summary>
    public double[] Influence(double[] weights)
        => pull is null ? weights : pull.LeftMultiply(Vector<double>.Build.Dense(weights)).ToArray();

    // Orthogonal over the scores, so that high degrees stay solvable.
    private static Matrix<double> Polynomials(int scores, int degree)
    {
        Matrix<double> basis = Matrix<double>.Build.Dense(scores, degree);
        List<Vector<double>> known = [Vector<double>.Build.Dense(scores, 1.0).Normalize(2)];
        Vector<double> line = Vector<double>.Build.Dense(scores, j => (2.0 * j / (scores - 1)) - 1);
        for (int d = 0; d < degree; d++)
        {
            Vector<double> next = known[^1].PointwiseMultiply(line);

            // Twice is enough (Parlett 1980): the second pass removes what rounding left.
            for (int pass = 0; pass < 2; pass++)
            {
                foreach (Vector<double> other in known)
                {
                    next -= (next * other) * other;
                }
            }

            next = next.Normalize(2);
            known.Add(next);
            basis.SetColumn(d, next * Math.Sqrt(scores));
        }

        return basis;
    }

    private static double LogTotal(Matrix<double> basis, Vector<double> at)
    {
        Vector<double> logs = basis * at;
        double top = logs.Maximum();
        return top + Math.Log(logs.Sum(l => Math.Exp(l - top)));
    }

    private static Vector<double> SharesAt(Matrix<double> basis, Vector<double> at)
    {
        Vector<double> logs = basis * at;
        double top = logs.Maximum();
        Vector<double> shares = logs.Map(l => Math.Exp(l - top));
        return shares / shares.Sum();
    }

    // Covariances of a person's score indicator with the polynomials: (diag(r) - r r') B.
    private static Matrix<double> Spread(Matrix<double> basis, Vector<double> shares)
    {
        Vector<double> means = basis.TransposeThisAndMultiply(shares);
        return Matrix<double>.Build.Dense(basis.RowCount, basis.ColumnCount, (j, d) => shares[j] * (basis[j, d] - means[d]));
    }

    private static Matrix<double> Curvature(Matrix<double> basis, Vector<double> shares) => basis.TransposeThisAndMultiply(Spread(basis, shares));
}
