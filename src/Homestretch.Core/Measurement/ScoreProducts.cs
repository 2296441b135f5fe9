using System.Numerics.Tensors;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

using MathNet.Numerics.LinearAlgebra;

namespace Homestretch.Core.Measurement;

/// <summary>What one thread gathers of the cross-product of the persons' scores: the gradients of the logs of their marginal likelihoods.</summary>
/// <remarks>A score is the posterior mean of the derivative of the log-chance of the answers. Persons come in batches, so that each loaded number is used several times.</remarks>
internal sealed class ScoreProducts
{
    private const int Lanes = 8;
    private const int RowsAtOnce = 4;

    private static readonly double[] Given = [1, 1, 0];
    private static readonly double[] Right = [0, 1, 0];

    private readonly ScoreTable table;
    private readonly ResponseMatrix data;
    private readonly int width;
    private readonly double[] lower;
    private readonly double[] scores;
    private readonly double[] gaps;
    private readonly double[] weighted;
    private readonly Answer[] answers;

    public ScoreProducts(ScoreTable table, ResponseMatrix data, int batch)
    {
        this.table = table;
        this.data = data;
        width = table.Width;
        lower = new double[width * width];
        scores = new double[batch * width];
        gaps = new double[batch * table.GapWidth];
        weighted = new double[batch * width];
        answers = new Answer[data.Items.Length];
    }

    /// <summary>Adds patterns <paramref name="from"/> onwards.</summary>
    /// <param name="from">The first pattern.</param>
    /// <param name="size">How many.</param>
    /// <param name="posteriors">Their posteriors over the nodes, one after the other.</param>
    public void Add(int from, int size, ReadOnlySpan<double> posteriors)
    {
        Means(posteriors, size, table.Wrong, width, scores);
        Means(posteriors, size, table.Gap, table.GapWidth, gaps);

        // Where all items share their gaps there are only those of one item.
        int gapStep = table.GapWidth == width ? table.Kinds : 0;
        for (int i = 0; i < size; i++)
        {
            data.Decode(from + i, answers);
            double persons = data.Counts[from + i];
            Span<double> score = scores.AsSpan(i * width, width);
            Span<double> gap = gaps.AsSpan(i * table.GapWidth, table.GapWidth);
            for (int j = 0; j < answers.Length; j++)
            {
                // By table, since nobody can predict which answers are right.
                double given = Given[(int)answers[j]];
                double right = Right[(int)answers[j]];
                for (int d = 0; d < table.Kinds; d++)
                {
                    ref double own = ref score[(j * table.Kinds) + d];
                    own = (given * own) + (right * gap[(j * gapStep) + d]);
                }
            }

            TensorPrimitives.Multiply(score, persons, weighted.AsSpan(i * width, width));
        }

        AddProducts(size);
    }

    /// <summary>Adds what was gathered to a matrix over the model's parameters.</summary>
    public void AddTo(Matrix<double> sum)
    {
        int columns = answers.Length * table.Kinds;
        for (int i = 0; i < columns; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double product = lower[(i * width) + j];
                (int a, int b) = (table.Parameter(i), table.Parameter(j));
                sum[a, b] += product;
                if (i != j)
                {
                    sum[b, a] += product;
                }
            }
        }
    }

    // Posterior means of all columns of a table, four persons at a time.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Means(ReadOnlySpan<double> posteriors, int size, double[] columns, int width, double[] means)
    {
        int nodes = posteriors.Length / size;
        ref double source = ref MemoryMarshal.GetArrayDataReference(columns);
        ref double target = ref MemoryMarshal.GetArrayDataReference(means);
        for (int i = 0; i < size; i += RowsAtOnce)
        {
            // The last rows are computed twice rather than by a loop of their own.
            int row = Math.Max(0, Math.Min(i, size - RowsAtOnce));
            ReadOnlySpan<double> p0 = posteriors.Slice(row * nodes, nodes);
            ReadOnlySpan<double> p1 = posteriors.Slice(Math.Min(row + 1, size - 1) * nodes, nodes);
            ReadOnlySpan<double> p2 = posteriors.Slice(Math.Min(row + 2, size - 1) * nodes, nodes);
            ReadOnlySpan<double> p3 = posteriors.Slice(Math.Min(row + 3, size - 1) * nodes, nodes);
            for (int c = 0; c < width; c += Lanes)
            {
                Vector512<double> m0 = default;
                Vector512<double> m1 = default;
                Vector512<double> m2 = default;
                Vector512<double> m3 = default;
                for (int k = 0; k < nodes; k++)
                {
                    Vector512<double> column = Vector512.LoadUnsafe(ref source, (nuint)((k * width) + c));
                    m0 = Vector512.FusedMultiplyAdd(column, Vector512.Create(p0[k]), m0);
                    m1 = Vector512.FusedMultiplyAdd(column, Vector512.Create(p1[k]), m1);
                    m2 = Vector512.FusedMultiplyAdd(column, Vector512.Create(p2[k]), m2);
                    m3 = Vector512.FusedMultiplyAdd(column, Vector512.Create(p3[k]), m3);
                }

                m0.StoreUnsafe(ref target, (nuint)((row * width) + c));
                m1.StoreUnsafe(ref target, (nuint)((Math.Min(row + 1, size - 1) * width) + c));
                m2.StoreUnsafe(ref target, (nuint)((Math.Min(row + 2, size - 1) * width) + c));
                m3.StoreUnsafe(ref target, (nuint)((Math.Min(row + 3, size - 1) * width) + c));
            }
        }
    }

    // The width is a multiple of eight, so four rows always fit.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void AddProducts(int size)
    {
        ref double score = ref MemoryMarshal.GetArrayDataReference(scores);
        ref double target = ref MemoryMarshal.GetArrayDataReference(lower);
        for (int row = 0; row < width; row += RowsAtOnce)
        {
            for (int c = 0; c < row + RowsAtOnce; c += Lanes)
            {
                nuint at = (nuint)((row * width) + c);
                nuint stride = (nuint)width;
                Vector512<double> s0 = Vector512.LoadUnsafe(ref target, at);
                Vector512<double> s1 = Vector512.LoadUnsafe(ref target, at + stride);
                Vector512<double> s2 = Vector512.LoadUnsafe(ref target, at + (2 * stride));
                Vector512<double> s3 = Vector512.LoadUnsafe(ref target, at + (3 * stride));
                for (int i = 0; i < size; i++)
                {
                    Vector512<double> column = Vector512.LoadUnsafe(ref score, (nuint)((i * width) + c));
                    ReadOnlySpan<double> rows = weighted.AsSpan((i * width) + row, RowsAtOnce);
                    s0 = Vector512.FusedMultiplyAdd(column, Vector512.Create(rows[0]), s0);
                    s1 = Vector512.FusedMultiplyAdd(column, Vector512.Create(rows[1]), s1);
                    s2 = Vector512.FusedMultiplyAdd(column, Vector512.Create(rows[2]), s2);
                    s3 = Vector512.FusedMultiplyAdd(column, Vector512.Create(rows[3]), s3);
                }

                s0.StoreUnsafe(ref target, at);
                s1.StoreUnsafe(ref target, at + stride);
                s2.StoreUnsafe(ref target, at + (2 * stride));
                s3.StoreUnsafe(ref target, at + (3 * stride));
            }
        }
    }
}
