using System.Collections.Immutable;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>Equipercentile equating of a single group: scores below which the same share of people lies are worth the same.</summary>
/// <remarks>Kolen &amp; Brennan 2004, sections 2.5 and 3.3 (log-linear presmoothing of each test's scores). Standard errors by the delta method, with the smoothing's part in them
/// (Lord 1982 without smoothing; Holland, King &amp; Thayer 1989 with it): they take into account that the same people took both tests.</remarks>
public sealed class EquipercentileEquating
{
    /// <summary>Higher degrees follow the noise of a sample.</summary>
    public const int HighestDegree = 6;

    /// <summary>Smoothing keeps at least mean and spread.</summary>
    public const int LowestDegree = 2;

    private readonly ScorePairs pairs;
    private readonly ScoreShares first;
    private readonly ScoreShares second;
    private readonly PercentileRanks firstRanks;
    private readonly PercentileRanks secondRanks;

    /// <param name="pairs">People who took both tests.</param>
    /// <param name="degree">Moments of each test's scores that smoothing keeps, <see cref="LowestDegree"/> to <see cref="HighestDegree"/>; 0 for no smoothing; null to let
    /// Akaike's criterion choose for each test.</param>
    /// <exception cref="ArgumentOutOfRangeException">The degree lies outside.</exception>
    /// <exception cref="UnsuitableDataException">A test has too few different scores for the degree.</exception>
    public EquipercentileEquating(ScorePairs pairs, int? degree = null)
    {
        ArgumentNullException.ThrowIfNull(pairs);
        if (degree is { } d && d != 0)
        {
            ArgumentOutOfRangeException.ThrowIfLessThan(d, LowestDegree, nameof(degree));
            ArgumentOutOfRangeException.ThrowIfGreaterThan(d, HighestDegree, nameof(degree));
        }

        this.pairs = pairs;
        (first, FirstDegree) = Shares(pairs.First, pairs.FirstItems, degree);
        (second, SecondDegree) = Shares(pairs.Second, pairs.SecondItems, degree);
        firstRanks = new PercentileRanks(first.Shares);
        secondRanks = new PercentileRanks(second.Shares);
    }

    /// <summary>Moments kept on the first test; 0 without smoothing.</summary>
    public int FirstDegree { get; }

    /// <summary>Moments kept on the second test; 0 without smoothing.</summary>
    public int SecondDegree { get; }

    /// <summary>The score on the second test that <paramref name="score"/> on the first is worth, with its standard error: infinite where nobody scored near it on the second test.</summary>
    /// <param name="score">0 to the items of the first test.</param>
    public Estimate Equivalent(int score)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(score);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(score, pairs.FirstItems);
        double equivalent = secondRanks.Score(firstRanks.Rank(score));
        double density = secondRanks.Density(equivalent);
        double[] firstMoves = first.Influence(firstRanks.Weights(score));
        double[] secondMoves = second.Influence(secondRanks.Weights(equivalent));
        double mean = 0;
        double square = 0;
        foreach (ScorePair pair in pairs.Pairs)
        {
            double moved = firstMoves[pair.First] - secondMoves[pair.Second];
            mean += moved / pairs.Pairs.Length;
            square += moved * moved / pairs.Pairs.Length;
        }

        double error = Math.Sqrt(Math.Max(0, square - (mean * mean)) / (pairs.Pairs.Length - 1));
        return new Estimate(equivalent, density > 0 ? error / density : double.PositiveInfinity);
    }

    private static (ScoreShares Shares, int Degree) Shares(ImmutableArray<double> scores, int items, int? degree)
    {
        int[] frequencies = new int[items + 1];
        foreach (double score in scores)
        {
            frequencies[(int)score]++;
        }

        int different = frequencies.Count(f => f > 0);
        if (degree == 0)
        {
            return (ScoreShares.Seen(frequencies), 0);
        }

        if (degree is { } asked)
        {
            return asked < different
                ? (ScoreShares.Smoothed(frequencies, asked), asked)
                : throw new UnsuitableDataException($"Smoothing of degree {asked} needs more than {asked} different scores on each test; one has {different}.");
        }

        return Enumerable.Range(LowestDegree, Math.Min(HighestDegree, different - 1) - LowestDegree + 1)
            .Select(d => (Shares: ScoreShares.Smoothed(frequencies, d), Degree: d))
            .MinBy(s => s.Degree - s.Shares.LogLikelihood);
    }
}
