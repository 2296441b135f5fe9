using System.Collections.Immutable;
using System.Numerics.Tensors;
using System.Runtime.InteropServices;

using Homestretch.Core.Standing;

using MathNet.Numerics.LinearAlgebra;

namespace Homestretch.Core.Measurement;

/// <summary>Calibrates Rasch items by conditional maximum likelihood (Andersen 1972), by Newton's method.</summary>
/// <remarks>Persons with different missing answers have their own symmetric functions, so answers missing by design cost nothing but time.</remarks>
public static class ConditionalRasch
{
    private const int MostSteps = 100;
    private const double Tolerance = 1e-10;
    private const double LongestStep = 2;

    /// <summary>Fits the model.</summary>
    /// <param name="data">The answers; missing ones are missing by design.</param>
    /// <param name="threads">Threads to use at most; all when null.</param>
    /// <param name="progress">Told the log-likelihood after every step.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="UnsuitableDataException">The data do not tie the items together, or leave fewer than two.</exception>
    public static ConditionalCalibration Fit(ResponseMatrix data, int? threads = null, IProgress<double>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(data);
        UsableItems usable = UsableItems.Find(data);
        usable.RequireAtLeast(2, MarginalEstimation.Name(ItemModel.Rasch));
        ResponseMatrix kept = usable.Columns.Length == data.Items.Length ? data : data.Select(usable.Columns);
        int size = kept.Items.Length;
        (ConditionalGroup[] groups, int persons) = Group(kept);
        RefuseLooseItems(kept);

        // Where the search starts hardly matters: the log-likelihood is concave.
        double[] point = [.. UsableItems.Shares(kept).Select(s => Math.Log(s / (1 - s)))];
        Centre(point);
        double[] gradient = new double[size];
        Matrix<double> information = Matrix<double>.Build.Dense(size, size);
        double value = Evaluate(groups, point, gradient, information, threads, cancellation);
        double gain = double.PositiveInfinity;
        Matrix<double> covariance = information;
        int steps = 0;
        bool converged = false;
        while (steps < MostSteps)
        {
            covariance = CovarianceOfCentred(information);
            double[] step = covariance.Multiply(Vector<double>.Build.Dense(gradient)).ToArray();
            gain = 0.5 * TensorPrimitives.Dot<double>(step, gradient);
            if (gain < Tolerance)
            {
                converged = true;
                break;
            }

            double longest = Math.Abs(TensorPrimitives.MaxMagnitude<double>(step));
            double length = Math.Min(1, LongestStep / longest);
            double[] next = new double[size];
            double[] nextGradient = new double[size];
            double nextValue;
            int halvings = 0;
            do
            {
                TensorPrimitives.MultiplyAdd(step, length, point, next);
                information.Clear();
                Array.Clear(nextGradient);
                nextValue = Evaluate(groups, next, nextGradient, information, threads, cancellation);
                length /= 2;
            }
            while (!(nextValue >= value - (1e-13 * Math.Abs(value))) && ++halvings < 40);

            point = next;
            gradient = nextGradient;
            value = nextValue;
            steps++;
            progress?.Report(value);
        }

        if (!converged)
        {
            throw new UnsuitableDataException($"The Rasch model did not settle after {steps} steps; more persons are needed.");
        }

        ImmutableArray<ItemEstimate> items = [.. kept.Items.Select((label, j) => new ItemEstimate(
            label,
            new ItemCurve(1, -point[j], 0),
            new ItemCurveErrors(null, Math.Sqrt(covariance[j, j]), null)))];
        return new ConditionalCalibration(items, usable.LeftOut, persons, value, size - 1, new Convergence(0, steps, gain, 0, converged));
    }

    private static double Evaluate(ConditionalGroup[] groups, double[] point, double[] gradient, Matrix<double> information, int? threads, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        int parts = Math.Clamp(threads ?? Environment.ProcessorCount, 1, groups.Length);
        (double Value, double[] Gradient, Matrix<double> Information)[] results = new (double, double[], Matrix<double>)[parts];
        Parallel.For(0, parts, new ParallelOptions { MaxDegreeOfParallelism = parts, CancellationToken = cancellation }, part =>
        {
            double[] ownGradient = new double[gradient.Length];
            Matrix<double> ownInformation = Matrix<double>.Build.Dense(gradient.Length, gradient.Length);
            double sum = 0;
            for (int g = part; g < groups.Length; g += parts)
            {
                cancellation.ThrowIfCancellationRequested();
                sum += groups[g].Evaluate(point, ownGradient, ownInformation);
            }

            results[part] = (sum, ownGradient, ownInformation);
        });

        double value = 0;
        foreach ((double own, double[] ownGradient, Matrix<double> ownInformation) in results)
        {
            value += own;
            TensorPrimitives.Add(gradient, ownGradient, gradient);
            information.Add(ownInformation, information);
        }

        return value;
    }

    // Only differences of difficulty are identified; adding 1/n to every element pins the mean and leaves the rest as it is.
    private static Matrix<double> CovarianceOfCentred(Matrix<double> information)
    {
        int size = information.RowCount;
        double scale = information.Diagonal().Maximum();
        Matrix<double> pinned = information + (scale / size);
        try
        {
            Matrix<double> inverse = pinned.Cholesky().Solve(Matrix<double>.Build.DenseIdentity(size));
            return inverse - (1 / (scale * size));
        }
        catch (ArgumentException)
        {
            throw new UnsuitableDataException("The answers leave some difficulties undetermined; more persons are needed.");
        }
    }

    private static void Centre(double[] values) => TensorPrimitives.Subtract(values, TensorPrimitives.Average<double>(values), values);

    private static (ConditionalGroup[] Groups, int Persons) Group(ResponseMatrix data)
    {
        Dictionary<string, ConditionalGroup> groups = [];
        Answer[] answers = new Answer[data.Items.Length];
        ulong[] given = new ulong[Words(answers.Length)];
        ulong[] last = new ulong[given.Length];
        ConditionalGroup? group = null;
        int persons = 0;
        for (int p = 0; p < data.Patterns; p++)
        {
            data.Decode(p, answers);
            Array.Clear(given);
            bool anyRight = false;
            bool anyWrong = false;
            for (int j = 0; j < answers.Length; j++)
            {
                anyRight |= answers[j] == Answer.Right;
                anyWrong |= answers[j] == Answer.Wrong;
                given[j / 64] |= answers[j] == Answer.Missing ? 0 : 1UL << (j % 64);
            }

            if (!anyRight || !anyWrong)
            {
                continue;
            }

            persons += data.Counts[p];
            if (group is null || !given.AsSpan().SequenceEqual(last))
            {
                string key = Convert.ToHexString(MemoryMarshal.AsBytes(given.AsSpan()));
                if (!groups.TryGetValue(key, out group))
                {
                    group = new ConditionalGroup([.. Enumerable.Range(0, answers.Length).Where(j => answers[j] != Answer.Missing)]);
                    groups.Add(key, group);
                }

                given.CopyTo(last, 0);
            }

            group.Add(answers, data.Counts[p]);
        }

        return ([.. groups.Values], persons);
    }

    // Estimates exist only when the items cannot be split in two so that nobody did better on an item of the first than on
    // one of the second (Fischer 1981): every item must be reachable from every other along "somebody got this right and that wrong".
    private static void RefuseLooseItems(ResponseMatrix data)
    {
        int size = data.Items.Length;
        int words = Words(size);
        ulong[] beats = new ulong[size * words];
        ulong[] wrong = new ulong[words];
        Answer[] answers = new Answer[size];
        for (int p = 0; p < data.Patterns; p++)
        {
            data.Decode(p, answers);
            Array.Clear(wrong);
            for (int j = 0; j < size; j++)
            {
                wrong[j / 64] |= answers[j] == Answer.Wrong ? 1UL << (j % 64) : 0;
            }

            for (int i = 0; i < size; i++)
            {
                for (int w = 0; answers[i] == Answer.Right && w < words; w++)
                {
                    beats[(i * words) + w] |= wrong[w];
                }
            }
        }

        bool Beats(int from, int to) => (beats[(from * words) + (to / 64)] >> (to % 64) & 1) == 1;
        bool[] forward = Reach(size, Beats);
        bool[] backward = Reach(size, (from, to) => Beats(to, from));
        List<string> loose = [.. Enumerable.Range(0, size).Where(j => !forward[j] || !backward[j]).Select(j => data.Items[j])];
        if (loose.Count > 0)
        {
            throw new UnsuitableDataException(
                $"The answers do not tie {string.Join(", ", loose.Take(5).Select(l => $"'{l}'"))}{(loose.Count > 5 ? $" and {loose.Count - 5} more items" : string.Empty)} to '{data.Items[0]}': "
                + "no chain of persons links them who got one right and the other wrong, both ways round. More persons are needed, or leave these items out.");
        }
    }

    private static int Words(int bits) => (bits + 63) / 64;

    private static bool[] Reach(int size, Func<int, int, bool> linked)
    {
        bool[] reached = new bool[size];
        reached[0] = true;
        Queue<int> open = new([0]);
        while (open.TryDequeue(out int from))
        {
            for (int to = 0; to < size; to++)
            {
                if (!reached[to] && linked(from, to))
                {
                    reached[to] = true;
                    open.Enqueue(to);
                }
            }
        }

        return reached;
    }
}
