using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Standing;

/// <summary>How many more items on a topic would settle its band.</summary>
/// <remarks>Looks ahead over every count the further items could give: the chance of the count, times how likely the then most likely band is.
/// That expectation can only rise with more items, so bisection finds the smallest number.
/// The further items are a test of their own, whose difficulty is a draw: its spread is given for each number of items.</remarks>
internal static class ItemsToSettle
{
    public static int? Find(Level level, double[] marginal, AbilityGrid grid, ResponseCurve curve, BandEdges edges, Func<int, double> formSd)
    {
        if (level.Settled)
        {
            return 0;
        }

        ConditionalAbility support = Support(marginal);
        Weighed? weighed = null;
        double weighedSd = double.NaN;
        bool Settles(int items)
        {
            if (formSd(items) is var sd && sd != weighedSd)
            {
                weighed = new Weighed(support, grid, curve, edges, new GaussianKernel(sd, grid.Step));
                weighedSd = sd;
            }

            return weighed!.Expected(items) >= Level.SettledFrom;
        }

        if (!Settles(StandingCalculator.MostItemsToSettle))
        {
            return null;
        }

        int low = 0;
        int high = StandingCalculator.MostItemsToSettle;
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (Settles(middle))
            {
                high = middle;
            }
            else
            {
                low = middle;
            }
        }

        return high;
    }

    private static double[] PartBelow(ConditionalAbility support, AbilityGrid grid, double ability)
    {
        double[] part = new double[support.Density.Length];
        for (int i = 0; i < part.Length; i++)
        {
            part[i] = grid.PartBelow(support.Start + i, ability);
        }

        return part;
    }

    private static ConditionalAbility Support(double[] marginal)
    {
        double floor = Spans.Max(marginal) * 1e-7;
        int first = Array.FindIndex(marginal, d => d > floor);
        int last = Array.FindLastIndex(marginal, d => d > floor);
        return new ConditionalAbility(first, [.. marginal.AsSpan(first, last - first + 1)]);
    }

    // The further items share one test's difficulty, so their likelihood is a smoothed one. Smoothing the weights it meets comes to the same and is done once.
    private sealed class Weighed
    {
        private readonly double[] chances;
        private readonly double[] all;
        private readonly double[] weak;
        private readonly double[] strong;

        public Weighed(ConditionalAbility support, AbilityGrid grid, ResponseCurve curve, BandEdges edges, GaussianKernel form)
        {
            ReadOnlySpan<double> density = support.Density.AsSpan();
            double[] part = PartBelow(support, grid, curve.Ability(edges.WeakBelow));
            Spans.Multiply(part, density, part);
            weak = form.SmoothWidening(part);
            part = PartBelow(support, grid, curve.Ability(edges.StrongFrom));
            for (int i = 0; i < part.Length; i++)
            {
                part[i] = 1 - part[i];
            }

            Spans.Multiply(part, density, part);
            strong = form.SmoothWidening(part);
            all = form.SmoothWidening(density);
            chances = new double[all.Length];
            for (int i = 0; i < chances.Length; i++)
            {
                chances[i] = curve.Chance(grid[support.Start - form.Reach + i]);
            }
        }

        public double Expected(int items)
        {
            double[] table = new double[(items + 1) * chances.Length];
            BinomialTable.Fill(items, chances, table);
            double expected = 0;
            for (int count = 0; count <= items; count++)
            {
                ReadOnlySpan<double> likelihood = table.AsSpan(count * chances.Length, chances.Length);
                double whole = Spans.Dot(likelihood, all);
                double low = Spans.Dot(likelihood, weak);
                double high = Spans.Dot(likelihood, strong);
                expected += Math.Max(Math.Max(low, high), whole - low - high);
            }

            return expected;
        }
    }
}
