using System.Collections.Immutable;
using System.Runtime.CompilerServices;

namespace Homestretch.Core.Measurement;

/// <summary>Which items can be calibrated at all: those that some persons got right and some wrong.</summary>
internal sealed record UsableItems(ImmutableArray<int> Columns, ImmutableArray<LeftOutItem> LeftOut, int Persons)
{
    public static UsableItems Find(ResponseMatrix data)
    {
        (int[] right, int[] wrong, int persons) = Tally(data);
        ImmutableArray<int>.Builder columns = ImmutableArray.CreateBuilder<int>();
        ImmutableArray<LeftOutItem>.Builder leftOut = ImmutableArray.CreateBuilder<LeftOutItem>();
        for (int j = 0; j < data.Items.Length; j++)
        {
            string? reason = right[j] + wrong[j] == 0 ? "Nobody answered it."
                : wrong[j] == 0 ? "Everybody who answered it got it right, so its difficulty has no lower limit."
                : right[j] == 0 ? "Nobody got it right, so its difficulty has no upper limit."
                : null;
            if (reason is null)
            {
                columns.Add(j);
            }
            else
            {
                leftOut.Add(new LeftOutItem(data.Items[j], reason));
            }
        }

        return new UsableItems(columns.ToImmutable(), leftOut.ToImmutable(), persons);
    }

    /// <summary>Share correct among those who answered, per item; a half where nobody did.</summary>
    public static double[] Shares(ResponseMatrix data)
    {
        (int[] right, int[] wrong, _) = Tally(data);
        return [.. right.Zip(wrong, (r, w) => r + w == 0 ? 0.5 : (double)r / (r + w))];
    }

    public void RequireAtLeast(int items, string model)
    {
        if (Columns.Length >= items)
        {
            return;
        }

        string why = LeftOut.IsEmpty ? string.Empty : $" {LeftOut.Length} {(LeftOut.Length == 1 ? "was" : "were")} left out: {string.Join(" ", LeftOut.Take(5).Select(l => $"'{l.Item}': {l.Reason}"))}";
        throw new UnsuitableDataException(
            $"The {model} needs at least {items} items that some persons got right and some wrong; there {(Columns.Length == 1 ? "is" : "are")} {Columns.Length}.{why}");
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static (int[] Right, int[] Wrong, int Persons) Tally(ResponseMatrix data)
    {
        int[] tally = new int[data.CodesPerRow * ResponseMatrix.Codes];
        int persons = 0;
        for (int p = 0; p < data.Patterns; p++)
        {
            int count = data.Counts[p];
            bool any = false;
            ReadOnlySpan<byte> row = data.Row(p);
            for (int g = 0; g < row.Length; g++)
            {
                tally[(g * ResponseMatrix.Codes) + row[g]] += count;
                any |= row[g] != ResponseMatrix.Codes - 1;
            }

            persons += any ? count : 0;
        }

        int[] right = new int[data.Items.Length];
        int[] wrong = new int[data.Items.Length];
        for (int j = 0; j < right.Length; j++)
        {
            int start = j / ResponseMatrix.ItemsPerCode * ResponseMatrix.Codes;
            for (int code = 0; code < ResponseMatrix.Codes; code++)
            {
                Answer answer = ResponseMatrix.Digit(code, j % ResponseMatrix.ItemsPerCode);
                right[j] += answer == Answer.Right ? tally[start + code] : 0;
                wrong[j] += answer == Answer.Wrong ? tally[start + code] : 0;
            }
        }

        return (right, wrong, persons);
    }
}
