using System.Numerics.Tensors;

using MathNet.Numerics.LinearAlgebra;

namespace Homestretch.Core.Measurement;

/// <summary>What one thread gathers of the cross-product of scores.</summary>
internal sealed class ScoreProducts(int size, int items)
{
    private readonly double[] lower = new double[size * size];

    public Answer[] Answers { get; } = new Answer[items];

    public double[] Score { get; } = new double[size];

    public void Add(int persons)
    {
        for (int i = 0; i < size; i++)
        {
            double factor = persons * Score[i];
            if (factor != 0)
            {
                Span<double> row = lower.AsSpan(i * size, i + 1);
                TensorPrimitives.MultiplyAdd(Score.AsSpan(0, i + 1), factor, row, row);
            }
        }
    }

    public void AddTo(Matrix<double> sum)
    {
        for (int i = 0; i < size; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                sum[i, j] += lower[(i * size) + j];
                if (j < i)
                {
                    sum[j, i] += lower[(i * size) + j];
                }
            }
        }
    }
}
