using System.Numerics.Tensors;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Standing;

/// <summary>How many more items on a topic would settle its band.</summary>
/// <remarks>Looks ahead over every count the further items could give: the chance of the count, times how likely the then most likely band is.
/// That expectation can only rise with more items, so bisection finds the smallest number.</remarks>
internal static class ItemsToSettle
{
    public static int? Find(Level level, double[] marginal, AbilityGrid grid, ResponseCurve curve, BandEdges edges, double formSd)
    {
        if (level.Settled)
        {
            return 0;
        }

        ConditionalAbility support = Support(marginal);
        double[] weakPart = PartBelow(support, grid, curve.Ability(edges.WeakBelow));
        double[] strongPart = PartBelow(support, grid, curve.Ability(edges.StrongFrom));
        for (int i = 0; i < strongPart.Length; i++)
        {
            strongPart[i] = 1 - strongPart[i];
        }

        GaussianKernel form = new(formSd, grid.Step);
        bool Settles(int items) => Expected(items, support, weakPart, strongPart, grid, curve, form) >= Level.SettledFrom;
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

    private static double Expected(int items, ConditionalAbility support, double[] weakPart, double[] strongPart, AbilityGrid grid, ResponseCurve curve, GaussianKernel form)
    {
        ReadOnlySpan<double> density = support.Density.AsSpan();
        double[] chances = new double[density.Length];
        for (int i = 0; i < chances.Length; i++)
        {
            chances[i] = curve.Chance(grid[support.Start + i]);
        }

        double[] table = new double[(items + 1) * density.Length];
        BinomialTable.Fill(items, chances, table);
        double expected = 0;
        double[] joint = new double[density.Length];
        for (int count = 0; count <= items; count++)
        {
            double[] likelihood = form.SmoothLevelling(table.AsSpan(count * density.Length, density.Length));
            TensorPrimitives.Multiply(likelihood, density, joint);
            double whole = TensorPrimitives.Sum<double>(joint);
            double weak = TensorPrimitives.Dot<double>(joint, weakPart);
            double strong = TensorPrimitives.Dot<double>(joint, strongPart);
            expected += Math.Max(Math.Max(weak, strong), whole - weak - strong);
        }

        return expected;
    }

    // How much of each grid cell lies below an ability.
    private static double[] PartBelow(ConditionalAbility support, AbilityGrid grid, double ability)
    {
        double[] part = new double[support.Density.Length];
        for (int i = 0; i < part.Length; i++)
        {
            part[i] = Math.Clamp(((ability - grid[support.Start + i]) / grid.Step) + 0.5, 0, 1);
        }

        return part;
    }

    private static ConditionalAbility Support(double[] marginal)
    {
        double floor = TensorPrimitives.Max<double>(marginal) * 1e-7;
        int first = Array.FindIndex(marginal, d => d > floor);
        int last = Array.FindLastIndex(marginal, d => d > floor);
        return new ConditionalAbility(first, [.. marginal.AsSpan(first, last - first + 1)]);
    }
}
