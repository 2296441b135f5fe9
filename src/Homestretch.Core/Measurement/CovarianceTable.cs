namespace Homestretch.Core.Measurement;

/// <summary>Variances and covariances of items, each pair over the people who were given both.</summary>
internal sealed class CovarianceTable
{
    /// <summary>A pair of items with fewer people in common says too little.</summary>
    public const int FewestInCommon = 5;

    private readonly double[] _values;
    private readonly int _size;

    private CovarianceTable(double[] values, int size, int fewest)
    {
        _values = values;
        _size = size;
        FewestPersons = fewest;
    }

    /// <summary>People behind the thinnest pair.</summary>
    public int FewestPersons { get; }

    public double this[int a, int b] => _values[(a * _size) + b];

    /// <summary>Sum over all pairs of <paramref name="a"/> and <paramref name="b"/>: the covariance of the two sum scores.</summary>
    public double Sum(ReadOnlySpan<int> a, ReadOnlySpan<int> b)
    {
        double sum = 0;
        foreach (int i in a)
        {
            foreach (int j in b)
            {
                sum += this[i, j];
            }
        }

        return sum;
    }

    /// <summary>Sum of the variances of <paramref name="items"/>.</summary>
    public double Trace(ReadOnlySpan<int> items)
    {
        double sum = 0;
        foreach (int i in items)
        {
            sum += this[i, i];
        }

        return sum;
    }

    /// <summary>The table, or null and the reason.</summary>
    public static CovarianceTable? Of(ItemScores scores, out string refusal)
    {
        refusal = "";
        int size = scores.Items.Length;
        if (scores.Persons.Length < 2)
        {
            refusal = scores.Persons.Length == 0 ? "Nobody took this test." : "One person's answers cannot show how far people differ.";
            return null;
        }

        double[] values = new double[size * size];
        int fewest = int.MaxValue;
        for (int a = 0; a < size; a++)
        {
            for (int b = 0; b <= a; b++)
            {
                (double covariance, int persons) = Pair(scores, a, b);
                fewest = Math.Min(fewest, persons);
                values[(a * size) + b] = values[(b * size) + a] = covariance;
            }
        }

        if (fewest < Math.Min(FewestInCommon, scores.Complete ? 2 : FewestInCommon))
        {
            refusal = $"Some pairs of items have only {fewest} people in common; at least {FewestInCommon} are needed.";
            return null;
        }

        return new CovarianceTable(values, size, fewest);
    }

    private static (double Covariance, int Persons) Pair(ItemScores scores, int a, int b)
    {
        int persons = 0;
        int onA = 0;
        int onB = 0;
        int both = 0;
        foreach (PersonAnswers person in scores.Persons)
        {
            ItemAnswer first = person.Answers[a];
            ItemAnswer second = person.Answers[b];
            if (first.Given && second.Given)
            {
                persons++;
                onA += first.Credit;
                onB += second.Credit;
                both += first.Credit * second.Credit;
            }
        }

        return persons < 2 ? (0, persons) : ((both - ((double)onA * onB / persons)) / (persons - 1), persons);
    }
}
