using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;

namespace Homestretch.Core.Planning;

/// <summary>Shares study time among topics so that a pass becomes as likely as possible.</summary>
/// <remarks>Grants one piece after the other to the topic where the pass chance rises fastest. A longer budget therefore continues a shorter one, so more time never lowers the pass chance.
/// Cost: pieces x one <see cref="QuickScoreModel.Slopes"/>.</remarks>
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

    /// <summary>Shares out <paramref name="pieces"/> equal pieces of study time.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="model">The model to optimise on, with a person loaded; keeps the efforts that come out.</param>
    /// <param name="past">Effort per topic that past study leaves on exam day.</param>
    /// <param name="pieceHours">Hours in one piece that are left on exam day (length x retention).</param>
    /// <param name="pieces">Pieces to share out at most, zero or more.</param>
    /// <param name="enoughAt">The pass chance at which to stop.</param>
    /// <param name="cancellation">Stops the work between two pieces.</param>
    public static Allocation Optimise(
        Exam exam, QuickScoreModel model, ReadOnlySpan<double> past, double pieceHours, int pieces, double enoughAt = SurePass, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(model);
        double[] effort = past.ToArray();
        EffortChange[] gains = new EffortChange[effort.Length];
        ImmutableArray<int>.Builder sequence = ImmutableArray.CreateBuilder<int>(pieces);
        model.Set(effort);
        while (sequence.Count < pieces)
        {
            cancellation.ThrowIfCancellationRequested();
            PieceGains(model, pieceHours, gains);
            int best = Best(exam, gains);
            QuickScore before = model.Score;
            double more = effort[best] + (pieceHours * model.BreadthFactors[best]);
            if (before.Pass >= enoughAt - SamePass || IsTooLittle(before, model.Try(best, more)))
            {
                return new Allocation(sequence.ToImmutable(), true);
            }

            sequence.Add(best);
            effort[best] = more;
            model.Move(best, more);
        }

        return new Allocation(sequence.ToImmutable(), false);
    }

    /// <summary>Topics by what the first piece adds, the most first.</summary>
    public static ImmutableArray<int> Rank(Exam exam, QuickScoreModel model, ReadOnlySpan<double> past, double pieceHours)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(model);
        EffortChange[] gains = new EffortChange[past.Length];
        model.Set(past);
        PieceGains(model, pieceHours, gains);
        return [.. Enumerable.Range(0, gains.Length).Order(Comparer<int>.Create((a, b) => Compare(exam, gains, a, b)))];
    }

    /// <summary>Topics in the order in which ties are decided: the heavier first, then by name, never by the order of the file.</summary>
    internal static int[] TieOrder(Exam exam)
        => [.. Enumerable.Range(0, exam.Topics.Length).OrderByDescending(t => exam.Topics[t].Items).ThenBy(t => exam.Topics[t].Name, StringComparer.Ordinal)];

    /// <summary>Whether a piece of study adds too little to be worth a person's time.</summary>
    internal static bool IsTooLittle(QuickScore before, QuickScore after) => after.Pass - before.Pass < NoPass && after.Correct - before.Correct < NoScore;

    /// <summary>What a change counts: pass chance first, expected score where that says nothing.</summary>
    internal static double Value(EffortChange change) => Value(change.Pass, change.Score);

    /// <summary>What a score counts, likewise.</summary>
    internal static double Value(QuickScore score) => Value(score.Pass, score.Correct);

    private static double Value(double pass, double correct) => pass + (ScoreWeight * correct);

    private static void PieceGains(QuickScoreModel model, double pieceHours, EffortChange[] gains)
    {
        model.Slopes(gains);
        for (int t = 0; t < gains.Length; t++)
        {
            double piece = pieceHours * model.BreadthFactors[t];
            gains[t] = new EffortChange(gains[t].Pass * piece, gains[t].Score * piece);
        }
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
