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

    // Given mu a section's share varies little, as its topics' surprises even out; nodes must lie close against that. With these, figures are good to 1e-5.
    private const double NodeSpacing = 0.4;
    private const double NegligibleNode = 1e-7;

    public static Level Of(Exam exam, int section, AbilityPosterior posterior)
    {
        int[] topics = [.. Enumerable.Range(0, exam.Topics.Length).Where(t => exam.Topics[t].SectionIndex == section && exam.Topics[t].Items > 0)];
        double items = exam.Sections[section].ScoredItems;
        double[] mixture = new double[Cells + topics.Length + 2];
        Footprints[] prints = Array.ConvertAll(topics, t => new Footprints(posterior.Grid, posterior.ExamCurve(t, exam.Topics[t].Name), exam.Topics[t].Items / items));
        GaussianKernel[] shifts = Array.ConvertAll(topics, t => new GaussianKernel(posterior.ExamShiftSd(exam.Topics[t].Name), posterior.Grid.Step));
        foreach (AbilityNode node in posterior.RateGroups.SelectMany(g => AbilityNodes.Some(posterior, g, NodeSpacing, NegligibleNode)))
        {
            double[] sum = [1.0];
            for (int i = 0; i < topics.Length; i++)
            {
                double[] part = prints[i].Part(Widen(posterior.Conditional(topics[i], node.Index), shifts[i], posterior.Grid));
                sum = Convolve(sum, part);
            }

            Span<double> target = mixture.AsSpan(0, Math.Min(sum.Length, mixture.Length));
            Spans.AddScaled(sum.AsSpan(0, target.Length), node.Weight, target);
        }

        double mean = topics.Select((t, i) => prints[i].Mean(Widen(new ConditionalAbility(0, [.. posterior.Marginal(t)]), shifts[i], posterior.Grid))).Sum();
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

    // Which cells one topic's mass at each grid point goes to. Between two points the density is taken as a straight line, so that a coarse grid leaves no gaps between the cells.
    private sealed class Footprints
    {
        private readonly double[] shares;
        private readonly int[] first;
        private readonly double[][] masses;

        public Footprints(AbilityGrid grid, ResponseCurve curve, double share)
        {
            shares = new double[grid.Count];
            first = new int[grid.Count];
            masses = new double[grid.Count][];
            double[] values = new double[2 * StepsPerPoint];
            for (int i = 0; i < grid.Count; i++)
            {
                shares[i] = share * curve.Chance(grid[i]);
                for (int step = 0; step < values.Length; step++)
                {
                    values[step] = share * Cells * curve.Chance(grid[i] + ((((step + 0.5) / StepsPerPoint) - 1) * grid.Step));
                }

                // Chances rise with ability.
                first[i] = (int)values[0];
                masses[i] = new double[(int)values[^1] + 2 - first[i]];
                for (int step = 0; step < values.Length; step++)
                {
                    double fromEnd = Math.Min(step + 0.5, values.Length - step - 0.5) / StepsPerPoint;
                    double mass = fromEnd / StepsPerPoint;
                    int cell = (int)values[step];
                    masses[i][cell - first[i]] += mass * (cell + 1 - values[step]);
                    masses[i][cell - first[i] + 1] += mass * (values[step] - cell);
                }
            }
        }

        public double Mean(ConditionalAbility ability) => Spans.Dot(ability.Density.AsSpan(), shares.AsSpan(ability.Start, ability.Density.Length));

        public double[] Part(ConditionalAbility ability)
        {
            ReadOnlySpan<double> density = ability.Density.AsSpan();
            int end = ability.Start + density.Length - 1;
            double[] part = new double[first[end] + masses[end].Length];
            for (int i = 0; i < density.Length; i++)
            {
                int cell = first[ability.Start + i];
                foreach (double mass in masses[ability.Start + i])
                {
                    part[cell++] += density[i] * mass;
                }
            }

            return part;
        }
    }
}
