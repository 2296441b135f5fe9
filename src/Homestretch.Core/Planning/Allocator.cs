using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;

namespace Homestretch.Core.Planning;

/// <summary>Shares study time among topics so that a pass becomes as likely as possible.</summary>
/// <remarks>Grants one piece after the other to the topic where it adds most, and before each grant looks whether moving an earlier piece
/// would help. A longer budget therefore continues a shorter one, so more time never lowers the pass chance.
/// Cost: pieces x one <see cref="ScoreModel.Marginal"/>.</remarks>
public static class Allocator
{
    // Where a pass is out of reach or certain, the expected score still tells topics apart: a correct answer counts a hundredth of a point.
    private const double ScoreWeight = 1e-4;

    /// <summary>From this pass chance on, rest is worth more than another block.</summary>
    public const double SurePass = 0.995;

    /// <summary>Pass chances nearer than this are the same: rounding must not decide whether a plan goes on.</summary>
    internal const double SamePass = 1e-6;

    // A piece that adds less than this to both is not worth a person's time.
    private const double NoPass = 2e-5;
    private const double NoScore = 0.02;

    // An exchange must promise this much, so that the error of coarse quadrature cannot decide it.
    private const double ExchangePass = 5e-4;
    private const int ExchangesPerPiece = 2;

    /// <summary>Shares out <paramref name="pieces"/> equal pieces of study time.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="model">The score model to optimise on.</param>
    /// <param name="past">Effort per topic that past study leaves on exam day.</param>
    /// <param name="pieceHours">Hours in one piece that are left on exam day (length x retention).</param>
    /// <param name="pieces">Pieces to share out at most, zero or more.</param>
    /// <param name="enoughAt">The pass chance at which to stop.</param>
    /// <param name="cancellation">Stops the work between two pieces.</param>
    public static Allocation Optimise(
        Exam exam, ScoreModel model, ReadOnlySpan<double> past, double pieceHours, int pieces, double enoughAt = SurePass, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(model);
        int topics = exam.Topics.Length;
        double[] piece = [.. model.BreadthFactors.Select(b => b * pieceHours)];
        double[] effort = past.ToArray();
        List<int> sequence = new(pieces);
        EffortChange[] gains = new EffortChange[topics];
        EffortChange[] losses = new EffortChange[topics];
        while (sequence.Count < pieces)
        {
            cancellation.ThrowIfCancellationRequested();
            double pass = model.Marginal(effort, piece, gains, losses);
            for (int exchange = 0; exchange < ExchangesPerPiece && Exchange(exam, sequence, gains, losses) is var (from, to) && from >= 0; exchange++)
            {
                effort[from] -= piece[from];
                effort[to] += piece[to];
                if (model.PassChance(effort) < pass + ExchangePass)
                {
                    effort[from] += piece[from];
                    effort[to] -= piece[to];
                    break;
                }

                sequence[sequence.LastIndexOf(from)] = to;
                pass = model.Marginal(effort, piece, gains, losses);
            }

            int best = Best(exam, gains);
            if (pass >= enoughAt - SamePass || (gains[best].Pass < NoPass && gains[best].Score < NoScore))
            {
                return new Allocation([.. sequence], true);
            }

            sequence.Add(best);
            effort[best] += piece[best];
        }

        return new Allocation([.. sequence], false);
    }

    /// <summary>Topics by what the first piece adds, the most first.</summary>
    public static ImmutableArray<int> Rank(Exam exam, ScoreModel model, ReadOnlySpan<double> past, double pieceHours)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(model);
        int topics = exam.Topics.Length;
        EffortChange[] gains = new EffortChange[topics];
        model.Marginal(past, [.. model.BreadthFactors.Select(b => b * pieceHours)], gains, new EffortChange[topics]);
        return [.. Enumerable.Range(0, topics).Order(Comparer<int>.Create((a, b) => Compare(exam, gains, a, b)))];
    }

    /// <summary>What a change counts: pass chance first, expected score where that says nothing.</summary>
    internal static double Value(EffortChange change) => change.Pass + (ScoreWeight * change.Score);

    /// <summary>The exchange of one piece that promises most, or (-1, -1) where none promises enough.</summary>
    internal static (int From, int To) Exchange(Exam exam, IReadOnlyCollection<int> granted, EffortChange[] gains, EffortChange[] losses)
    {
        int from = -1;
        foreach (int topic in granted.Distinct())
        {
            if (from < 0 || Value(losses[topic]) < Value(losses[from]))
            {
                from = topic;
            }
        }

        int to = Best(exam, gains);
        return from < 0 || to == from || gains[to].Pass - losses[from].Pass < ExchangePass ? (-1, -1) : (from, to);
    }

    private static int Best(Exam exam, EffortChange[] gains)
    {
        int best = 0;
        for (int t = 1; t < gains.Length; t++)
        {
            if (Compare(exam, gains, t, best) < 0)
            {
                best = t;
            }
        }

        return best;
    }

    // Ties go to the heavier topic, then by name: never by the order of the file.
    private static int Compare(Exam exam, EffortChange[] gains, int a, int b)
    {
        double gap = Value(gains[b]) - Value(gains[a]);
        if (Math.Abs(gap) > 1e-11 + (1e-7 * Value(gains[a])))
        {
            return gap > 0 ? 1 : -1;
        }

        int heavier = exam.Topics[b].Items.CompareTo(exam.Topics[a].Items);
        return heavier != 0 ? heavier : string.CompareOrdinal(exam.Topics[a].Name, exam.Topics[b].Name);
    }
}
