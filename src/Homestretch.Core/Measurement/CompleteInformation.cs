namespace Homestretch.Core.Measurement;

/// <summary>The information about the parameters if every person's ability were known: one small block per item, joined by a shared slope in the Rasch model.</summary>
/// <remarks>Its inverse turns a gradient into the EM step (Lange 1995), which is what the quasi-Newton search starts from. It is never far
/// below the true curvature, so steps are never far too long.</remarks>
internal sealed class CompleteInformation
{
    // Keeps a block of an item that says nothing from dividing by zero; far below the information of a single answer.
    private const double Ridge = 1e-8;

    private readonly double[] blocks;
    private readonly int items;
    private readonly int shared;
    private readonly int perItem;

    public CompleteInformation(int items, int shared, int perItem)
    {
        this.items = items;
        this.shared = shared;
        this.perItem = perItem;
        blocks = new double[items * 6];
    }

    public void Clear() => Array.Clear(blocks);

    /// <param name="item">Column.</param>
    /// <param name="block">Slope-slope, slope-intercept, intercept-intercept, slope-guess, intercept-guess, guess-guess.</param>
    public void Add(int item, ReadOnlySpan<double> block) => block.CopyTo(blocks.AsSpan(item * 6, 6));

    /// <summary>Solves information * step = gradient.</summary>
    public void Solve(ReadOnlySpan<double> gradient, Span<double> step)
    {
        if (shared == 1)
        {
            SolveArrow(gradient, step);
            return;
        }

        for (int j = 0; j < items; j++)
        {
            ReadOnlySpan<double> b = blocks.AsSpan(j * 6, 6);
            ReadOnlySpan<double> g = gradient.Slice(j * perItem, perItem);
            Span<double> s = step.Slice(j * perItem, perItem);
            double l11 = Math.Sqrt(b[0] + Ridge);
            double l21 = b[1] / l11;
            double l22 = Root(b[2], l21 * l21);
            double y1 = g[0] / l11;
            double y2 = (g[1] - (l21 * y1)) / l22;
            if (perItem == 2)
            {
                s[1] = y2 / l22;
                s[0] = (y1 - (l21 * s[1])) / l11;
                continue;
            }

            double l31 = b[3] / l11;
            double l32 = (b[4] - (l31 * l21)) / l22;
            double l33 = Root(b[5], (l31 * l31) + (l32 * l32));
            double y3 = (g[2] - (l31 * y1) - (l32 * y2)) / l33;
            s[2] = y3 / l33;
            s[1] = (y2 - (l32 * s[2])) / l22;
            s[0] = (y1 - (l21 * s[1]) - (l31 * s[2])) / l11;
        }
    }

    private static double Root(double diagonal, double taken) => Math.Sqrt(Math.Max(diagonal - taken, diagonal * 1e-10) + Ridge);

    private void SolveArrow(ReadOnlySpan<double> gradient, Span<double> step)
    {
        double pivot = Ridge;
        double right = gradient[0];
        for (int j = 0; j < items; j++)
        {
            ReadOnlySpan<double> b = blocks.AsSpan(j * 6, 6);
            double own = b[2] + Ridge;
            pivot += b[0] - (b[1] * b[1] / own);
            right -= b[1] * gradient[1 + j] / own;
        }

        step[0] = right / Math.Max(pivot, Ridge);
        for (int j = 0; j < items; j++)
        {
            ReadOnlySpan<double> b = blocks.AsSpan(j * 6, 6);
            step[1 + j] = (gradient[1 + j] - (b[1] * step[0])) / (b[2] + Ridge);
        }
    }
}
