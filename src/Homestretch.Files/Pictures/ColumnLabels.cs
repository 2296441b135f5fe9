using System.Collections.Immutable;

namespace Homestretch.Files.Pictures;

/// <summary>Places names below columns of very different widths so that none is cut, broken or covered.</summary>
internal static class ColumnLabels
{
    private const double Gap = 12;
    private const double Clearance = 5;

    /// <summary>Places for all names in one row, or in two rows of alternate columns; null where neither has room.</summary>
    /// <param name="names">Names from left to right.</param>
    /// <param name="columns">Centres of their columns, ascending.</param>
    /// <param name="left">Left end of the room for labels.</param>
    /// <param name="right">Right end.</param>
    /// <param name="size">Font size.</param>
    /// <param name="maxLines">Lines a name may take.</param>
    public static ImmutableArray<LabelPlace>? Place(ImmutableArray<string> names, ImmutableArray<double> columns, double left, double right, double size, int maxLines)
    {
        // The fewest lines that still fit: a name reads better in one line than in three.
        for (int most = 1; most <= maxLines; most++)
        {
            double[] widths = [.. names.Select(n => Narrowest(n, size, most))];
            if (Spread([.. columns], widths, left, right) is { } centres && (most == maxLines || Displaced(columns, centres) <= 14))
            {
                return [.. names.Select((n, i) => new LabelPlace(columns[i], centres[i], Lettering.Wrap(n, size, widths[i], maxLines), 0))];
            }
        }

        for (int most = 2; most <= maxLines; most++)
        {
            if (TwoRows(names, columns, [.. names.Select(n => Narrowest(n, size, most))], left, right, size, most) is { } places)
            {
                return places;
            }
        }

        return null;
    }

    private static double Displaced(ImmutableArray<double> columns, double[] centres)
        => columns.Zip(centres, (a, b) => Math.Abs(a - b)).DefaultIfEmpty(0).Max();

    private static ImmutableArray<LabelPlace>? TwoRows(ImmutableArray<string> names, ImmutableArray<double> columns, double[] widths, double left, double right, double size, int maxLines)
    {
        // Names of the second row hang on lines that pass between the names of the first.
        for (int first = 0; first < 2; first++)
        {
            bool Upper(int i) => i % 2 == first;
            int[] upper = [.. Enumerable.Range(0, names.Length).Where(Upper)];
            int[] lower = [.. Enumerable.Range(0, names.Length).Where(i => !Upper(i))];
            double[] centres = new double[names.Length];
            bool fits = true;
            foreach (int i in upper)
            {
                double from = i == 0 ? left : columns[i - 1] + Clearance;
                double to = i == names.Length - 1 ? right : columns[i + 1] - Clearance;
                fits &= to - from >= widths[i];
                centres[i] = Math.Clamp(columns[i], from + (widths[i] / 2), Math.Max(from + (widths[i] / 2), to - (widths[i] / 2)));
            }

            if (fits && Spread([.. lower.Select(i => columns[i])], [.. lower.Select(i => widths[i])], left, right) is { } below)
            {
                for (int k = 0; k < lower.Length; k++)
                {
                    centres[lower[k]] = below[k];
                }

                return [.. names.Select((n, i) => new LabelPlace(columns[i], centres[i], Lettering.Wrap(n, size, widths[i], maxLines), Upper(i) ? 0 : 1))];
            }
        }

        return null;
    }

    /// <summary>Centres as near to the wanted ones as order, gaps and ends allow; null where the labels are wider than the room.</summary>
    private static double[]? Spread(double[] wanted, double[] widths, double left, double right)
    {
        if (widths.Sum() + (Gap * (widths.Length - 1)) > right - left)
        {
            return null;
        }

        // Push right from the left end, then left from the right end; the middle of the two keeps order and gaps.
        int n = wanted.Length;
        double[] rightward = new double[n];
        double[] leftward = new double[n];
        double edge = left;
        for (int i = 0; i < n; i++)
        {
            rightward[i] = Math.Max(wanted[i], edge + (widths[i] / 2));
            edge = rightward[i] + (widths[i] / 2) + Gap;
        }

        edge = right;
        for (int i = n - 1; i >= 0; i--)
        {
            rightward[i] = Math.Min(rightward[i], edge - (widths[i] / 2));
            edge = rightward[i] - (widths[i] / 2) - Gap;
        }

        edge = right;
        for (int i = n - 1; i >= 0; i--)
        {
            leftward[i] = Math.Min(wanted[i], edge - (widths[i] / 2));
            edge = leftward[i] - (widths[i] / 2) - Gap;
        }

        edge = left;
        for (int i = 0; i < n; i++)
        {
            leftward[i] = Math.Max(leftward[i], edge + (widths[i] / 2));
            edge = leftward[i] + (widths[i] / 2) + Gap;
        }

        return [.. rightward.Zip(leftward, (a, b) => (a + b) / 2)];
    }

    /// <summary>The narrowest width at which a name needs no more lines than allowed and no word is broken.</summary>
    private static double Narrowest(string name, double size, int maxLines)
    {
        double width = name.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries).Select(w => Lettering.Width(w, size)).DefaultIfEmpty(0).Max();
        while (!Lettering.Fits(name, size, width, maxLines))
        {
            width += 2;
        }

        // One line where it is hardly wider: short names read better whole.
        double whole = Lettering.Width(name, size);
        return whole <= width * 1.25 ? whole + 0.5 : width + 0.5;
    }
}
