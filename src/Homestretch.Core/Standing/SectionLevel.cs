using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Standing;

/// <summary>The posterior of a section's expected share correct: the item-weighted mean of its topics' chances.</summary>
/// <remarks>Given a node of mu the topics are independent, so the sum's density is a convolution. Each topic's part is put on a common
/// grid of shares, its mass split between the two nearest points so that the mean is kept exactly.</remarks>
internal static class SectionLevel
{
    private const int Cells = 400;
    private const int StepsPerPoint = 8;

    public static Level Of(Exam exam, int section, AbilityPosterior posterior)
    {
        int[] topics = [.. Enumerable.Range(0, exam.Topics.Length).Where(t => exam.Topics[t].SectionIndex == section && exam.Topics[t].Items > 0)];
        double items = exam.Sections[section].ScoredItems;
        double[] mixture = new double[Cells + topics.Length + 2];
        double mean = 0;
        double[][] chances = Array.ConvertAll(topics, t => ChancesBetween(posterior.Grid, posterior.ExamCurve(t, exam.Topics[t].Name)));
        GaussianKernel[] shifts = Array.ConvertAll(topics, t => new GaussianKernel(posterior.ExamShiftSd(exam.Topics[t].Name), posterior.Grid.Step));
        for (int k = 0; k < posterior.Nodes.Length; k++)
        {
            double[] sum = [1.0];
            for (int i = 0; i < topics.Length; i++)
            {
                double[] part = Part(Widen(posterior.Conditional(topics[i], k), shifts[i], posterior.Grid), chances[i], exam.Topics[topics[i]].Items / items, out double partMean);
                mean += posterior.Weights[k] * partMean;
                sum = Convolve(sum, part);
            }

            Span<double> target = mixture.AsSpan(0, Math.Min(sum.Length, mixture.Length));
            Spans.AddScaled(sum.AsSpan(0, target.Length), posterior.Weights[k], target);
        }

        return Describe(mixture, mean, exam.Bands);
    }

    // What lies outside the grid is negligible.
    private static ConditionalAbility Widen(ConditionalAbility ability, GaussianKernel shift, AbilityGrid grid)
    {
        if (shift.Reach == 0)
        {
            return ability;
        }

        double[] wide = shift.SmoothWidening(ability.Density.AsSpan());
        int start = ability.Start - shift.Reach;
        int first = Math.Max(0, -start);
        int last = Math.Min(wide.Length, grid.Count - start);
        return new ConditionalAbility(start + first, [.. wide.AsSpan(first, last - first)]);
    }

    // The chance of a correct answer at each grid point, followed by those at the middles of the steps up to the next point.
    private static double[] ChancesBetween(AbilityGrid grid, ResponseCurve curve)
    {
        double[] chances = new double[grid.Count * (StepsPerPoint + 1)];
        for (int i = 0; i < grid.Count; i++)
        {
            chances[i * (StepsPerPoint + 1)] = curve.Chance(grid[i]);
            for (int step = 0; step < StepsPerPoint; step++)
            {
                chances[(i * (StepsPerPoint + 1)) + step + 1] = curve.Chance(grid[i] + (Along(step) * grid.Step));
            }
        }

        return chances;
    }

    private static double Along(int step) => (step + 0.5) / StepsPerPoint;

    // Between two grid points the density is taken as a straight line, so that the parts of a coarse grid leave no gaps between the cells.
    private static double[] Part(ConditionalAbility ability, double[] chances, double share, out double mean)
    {
        double[] part = new double[(int)Math.Ceiling(share * Cells) + 2];
        ReadOnlySpan<double> density = ability.Density.AsSpan();
        mean = 0;
        for (int i = 0; i < density.Length; i++)
        {
            ReadOnlySpan<double> here = chances.AsSpan((ability.Start + i) * (StepsPerPoint + 1), StepsPerPoint + 1);
            mean += density[i] * share * here[0];
            double next = i + 1 < density.Length ? density[i + 1] : 0;
            for (int step = 0; step < StepsPerPoint; step++)
            {
                double value = share * Cells * here[step + 1];
                double mass = ((density[i] * (1 - Along(step))) + (next * Along(step))) / StepsPerPoint;
                int cell = (int)value;
                part[cell] += mass * (cell + 1 - value);
                part[cell + 1] += mass * (value - cell);
            }
        }

        return part;
    }

    private static double[] Convolve(double[] a, double[] b)
    {
        double[] result = new double[a.Length + b.Length - 1];
        for (int i = 0; i < b.Length; i++)
        {
            if (b[i] != 0)
            {
                Span<double> target = result.AsSpan(i, a.Length);
                Spans.AddScaled(a, b[i], target);
            }
        }

        return result;
    }

    private static Level Describe(double[] density, double mean, BandEdges edges)
    {
        ImmutableArray<double> below = Cumulate(density);
        double weak = ChanceBelow(below, edges.WeakBelow);
        double notStrong = ChanceBelow(below, edges.StrongFrom);
        return new Level(
            mean,
            Quantile(below, 0.05),
            Quantile(below, 0.95),
            StandingCalculator.BandOf(mean, edges),
            new BandChances(weak, notStrong - weak, 1 - notStrong));
    }

    // below[i]: chance of a share below the lower edge of cell i, where cell i reaches half a step to either side of i / Cells.
    private static ImmutableArray<double> Cumulate(double[] density)
    {
        double total = Spans.Sum(density);
        ImmutableArray<double>.Builder below = ImmutableArray.CreateBuilder<double>(density.Length + 1);
        double sum = 0;
        below.Add(0);
        foreach (double mass in density)
        {
            below.Add((sum += mass) / total);
        }

        return below.MoveToImmutable();
    }

    private static double ChanceBelow(ImmutableArray<double> below, double share)
    {
        double position = (share * Cells) + 0.5;
        int cell = (int)position;
        return cell + 1 >= below.Length ? 1 : below[cell] + ((position - cell) * (below[cell + 1] - below[cell]));
    }

    private static double Quantile(ImmutableArray<double> below, double chance)
    {
        int cell = 0;
        while (cell + 2 < below.Length && below[cell + 1] < chance)
        {
            cell++;
        }

        double width = below[cell + 1] - below[cell];
        double part = width == 0 ? 0.5 : (chance - below[cell]) / width;
        return Math.Clamp((cell + part - 0.5) / Cells, 0, 1);
    }
}
