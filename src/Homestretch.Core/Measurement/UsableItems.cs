using System.Collections.Immutable;

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

    private static (int[] Right, int[] Wrong, int Persons) Tally(ResponseMatrix data)
    {
        int[] right = new int[data.Items.Length];
        int[] wrong = new int[data.Items.Length];
        int persons = 0;
        Answer[] answers = new Answer[data.Items.Length];
        for (int p = 0; p < data.Patterns; p++)
        {
            data.Decode(p, answers);
            bool any = false;
            for (int j = 0; j < answers.Length; j++)
            {
                any |= answers[j] != Answer.Missing;
                right[j] += answers[j] == Answer.Right ? data.Counts[p] : 0;
                wrong[j] += answers[j] == Answer.Wrong ? data.Counts[p] : 0;
            }

            persons += any ? data.Counts[p] : 0;
        }

        return (right, wrong, persons);
    }
}
