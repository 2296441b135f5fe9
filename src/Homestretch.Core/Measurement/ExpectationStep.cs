using System.Numerics.Tensors;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Homestretch.Core.Measurement;

/// <summary>Posterior of every response pattern over the nodes of ability, the marginal log-likelihood, and the expected counts.</summary>
/// <remarks>What five answers together add to the log-likelihood at each node is put into a table, one row per code of
/// <see cref="ResponseMatrix"/>; a person then costs one row addition per five items. Expected counts go the same way back: a person's
/// posterior is added to one bucket per five items, and the buckets are shared out to the items at the end. Threads have their own buckets.</remarks>
internal sealed class ExpectationStep
{
    private const int Lanes = 8;
    /// <summary>Patterns handled together.</summary>
    internal const int Batch = 32;

    private const int FewestPatternsPerThread = 512;

    private readonly ResponseMatrix data;
    private readonly AbilityNodes nodes;
    private readonly int groups;
    private readonly int[][] usedCodes;
    private readonly int[][] tableCodes;
    private readonly double[] table;
    private readonly Worker[] workers;

    public ExpectationStep(ResponseMatrix data, AbilityNodes nodes, int threads)
    {
        this.data = data;
        this.nodes = nodes;
        groups = data.CodesPerRow;
        (usedCodes, tableCodes) = FindCodes(data);
        table = new double[groups * ResponseMatrix.Codes * nodes.Count];
        int count = Math.Clamp(data.Patterns / FewestPatternsPerThread, 1, Math.Max(1, threads));
        workers = new Worker[count];
        for (int w = 0; w < count; w++)
        {
            int from = (int)((long)data.Patterns * w / count);
            int to = (int)((long)data.Patterns * (w + 1) / count);
            workers[w] = new Worker(from, to, table.Length, nodes.Count);
        }
    }

    /// <summary>The marginal log-likelihood of all persons; fills <paramref name="counts"/>.</summary>
    /// <param name="logRight">Items times nodes: log of the chance of a right answer.</param>
    /// <param name="logWrong">Items times nodes: log of the chance of a wrong answer.</param>
    /// <param name="counts">Filled with the expected counts.</param>
    /// <param name="cancellation">Stops the work.</param>
    public double Run(double[] logRight, double[] logWrong, ExpectedCounts counts, CancellationToken cancellation)
    {
        FillTable(logRight, logWrong);
        Each(worker => Sweep(worker), cancellation);
        counts.Clear();
        double sum = 0;
        foreach (Worker worker in workers)
        {
            sum += worker.LogLikelihood;
            ShareOut(worker.Buckets, counts);
        }

        return sum;
    }

    /// <summary>Hands out the patterns' posteriors in batches, in parallel; call <see cref="Run"/> with the same curves before.</summary>
    /// <param name="start">Makes what one thread gathers.</param>
    /// <param name="visit">Gets that, the first pattern of a batch, and the batch's posteriors over the nodes, one after the other.</param>
    /// <param name="cancellation">Stops the work.</param>
    public List<T> Visit<T>(Func<T> start, Action<T, int, ReadOnlySpan<double>> visit, CancellationToken cancellation)
        where T : class
    {
        T[] gathered = new T[workers.Length];
        Each(
            worker =>
            {
                T own = start();
                gathered[Array.IndexOf(workers, worker)] = own;
                Posteriors(worker, (from, posteriors) => visit(own, from, posteriors));
            },
            cancellation);
        return [.. gathered];
    }

    private void Each(Action<Worker> work, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        if (workers.Length == 1)
        {
            work(workers[0]);
            return;
        }

        ParallelOptions options = new() { MaxDegreeOfParallelism = workers.Length, CancellationToken = cancellation };
        Parallel.For(0, workers.Length, options, w => work(workers[w]));
    }

    private void FillTable(double[] logRight, double[] logWrong)
    {
        int width = nodes.Count;
        for (int g = 0; g < groups; g++)
        {
            // A code's row is another row plus one item: the one where that item is missing, which has a higher code and so comes first.
            foreach (int code in tableCodes[g])
            {
                Span<double> row = table.AsSpan(((g * ResponseMatrix.Codes) + code) * width, width);
                (int place, Answer answer) = FirstAnswered(code);
                if (place < 0)
                {
                    row.Clear();
                    continue;
                }

                int item = (g * ResponseMatrix.ItemsPerCode) + place;
                int parent = Without(code, place, answer);
                ReadOnlySpan<double> own = (answer == Answer.Right ? logRight : logWrong).AsSpan(item * width, width);
                TensorPrimitives.Add(table.AsSpan(((g * ResponseMatrix.Codes) + parent) * width, width), own, row);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Sweep(Worker worker)
    {
        int width = nodes.Count;
        foreach ((int g, int code) in usedCodes.SelectMany((codes, g) => codes.Select(code => (g, code))))
        {
            worker.Buckets.AsSpan(((g * ResponseMatrix.Codes) + code) * width, width).Clear();
        }

        double sum = 0;
        Span<double> logs = worker.Logs;
        Span<double> tops = stackalloc double[Batch];
        Span<nuint> rows = worker.Rows(groups, Batch);
        ref double buckets = ref MemoryMarshal.GetArrayDataReference(worker.Buckets);
        for (int from = worker.From; from < worker.To; from += Batch)
        {
            int size = Math.Min(Batch, worker.To - from);
            Gather(from, size, rows, logs, tops);
            TensorPrimitives.Exp<double>(logs[..(size * width)], logs[..(size * width)]);
            ref double weights = ref MemoryMarshal.GetReference(logs);
            for (int i = 0; i < size; i++)
            {
                nuint at = (nuint)(i * width);
                Vector512<double> total = Vector512<double>.Zero;
                for (nuint k = 0; k < (nuint)width; k += Lanes)
                {
                    total += Vector512.LoadUnsafe(ref weights, at + k);
                }

                double whole = Vector512.Sum(total);
                double persons = data.Counts[from + i];
                sum += persons * (tops[i] + Math.Log(whole));
                Vector512<double> scale = Vector512.Create(persons / whole);
                ReadOnlySpan<nuint> own = rows.Slice(i * groups, groups);
                for (nuint k = 0; k < (nuint)width; k += Lanes)
                {
                    Vector512<double> part = Vector512.LoadUnsafe(ref weights, at + k) * scale;
                    foreach (nuint row in own)
                    {
                        (Vector512.LoadUnsafe(ref buckets, row + k) + part).StoreUnsafe(ref buckets, row + k);
                    }
                }
            }
        }

        worker.LogLikelihood = sum;
    }

    // Log of prior times likelihood at every node for a batch of patterns, less its maximum.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Gather(int from, int size, Span<nuint> rows, Span<double> logs, Span<double> tops)
    {
        int width = nodes.Count;
        ref double lookup = ref MemoryMarshal.GetArrayDataReference(table);
        ref double prior = ref MemoryMarshal.GetArrayDataReference(nodes.LogWeights);
        ref double target = ref MemoryMarshal.GetReference(logs);
        for (int i = 0; i < size; i++)
        {
            ReadOnlySpan<byte> codes = data.Row(from + i);
            Span<nuint> own = rows.Slice(i * groups, groups);
            for (int g = 0; g < codes.Length; g++)
            {
                own[g] = (nuint)(((g * ResponseMatrix.Codes) + codes[g]) * width);
            }

            nuint at = (nuint)(i * width);
            Vector512<double> most = Vector512.Create(double.NegativeInfinity);
            for (nuint k = 0; k < (nuint)width; k += Lanes)
            {
                Vector512<double> log = Vector512.LoadUnsafe(ref prior, k);
                foreach (nuint row in own)
                {
                    log += Vector512.LoadUnsafe(ref lookup, row + k);
                }

                most = Vector512.Max(most, log);
                log.StoreUnsafe(ref target, at + k);
            }

            double top = most[0];
            for (int lane = 1; lane < Lanes; lane++)
            {
                top = Math.Max(top, most[lane]);
            }

            tops[i] = top;
            Vector512<double> shift = Vector512.Create(top);
            for (nuint k = 0; k < (nuint)width; k += Lanes)
            {
                (Vector512.LoadUnsafe(ref target, at + k) - shift).StoreUnsafe(ref target, at + k);
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Posteriors(Worker worker, Receive receive)
    {
        int width = nodes.Count;
        Span<double> logs = worker.Logs;
        Span<double> tops = stackalloc double[Batch];
        Span<nuint> rows = worker.Rows(groups, Batch);
        for (int from = worker.From; from < worker.To; from += Batch)
        {
            int size = Math.Min(Batch, worker.To - from);
            Gather(from, size, rows, logs, tops);
            TensorPrimitives.Exp<double>(logs[..(size * width)], logs[..(size * width)]);
            for (int i = 0; i < size; i++)
            {
                Span<double> posterior = logs.Slice(i * width, width);
                double whole = TensorPrimitives.Sum<double>(posterior);
                TensorPrimitives.Divide(posterior, whole, posterior);
            }

            receive(from, logs[..(size * width)]);
        }
    }

    private void ShareOut(double[] buckets, ExpectedCounts counts)
    {
        int width = nodes.Count;
        for (int g = 0; g < groups; g++)
        {
            foreach (int code in usedCodes[g])
            {
                ReadOnlySpan<double> bucket = buckets.AsSpan(((g * ResponseMatrix.Codes) + code) * width, width);
                for (int place = 0; place < ResponseMatrix.ItemsPerCode; place++)
                {
                    Answer answer = ResponseMatrix.Digit(code, place);
                    if (answer != Answer.Missing)
                    {
                        int item = (g * ResponseMatrix.ItemsPerCode) + place;
                        Span<double> target = answer == Answer.Right ? counts.Right(item) : counts.Wrong(item);
                        TensorPrimitives.Add(target, bucket, target);
                    }
                }
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static (int[][] Used, int[][] Table) FindCodes(ResponseMatrix data)
    {
        bool[,] seen = new bool[data.CodesPerRow, ResponseMatrix.Codes];
        for (int p = 0; p < data.Patterns; p++)
        {
            ReadOnlySpan<byte> row = data.Row(p);
            for (int g = 0; g < row.Length; g++)
            {
                seen[g, row[g]] = true;
            }
        }

        int[][] used = new int[data.CodesPerRow][];
        int[][] withParents = new int[data.CodesPerRow][];
        for (int g = 0; g < used.Length; g++)
        {
            used[g] = [.. Enumerable.Range(0, ResponseMatrix.Codes).Where(code => seen[g, code])];
            SortedSet<int> all = [];
            foreach (int code in used[g])
            {
                int step = code;
                while (all.Add(step) && FirstAnswered(step) is { Place: >= 0 } answered)
                {
                    step = Without(step, answered.Place, answered.Answer);
                }
            }

            withParents[g] = [.. all.Reverse()];
        }

        return (used, withParents);
    }

    private static (int Place, Answer Answer) FirstAnswered(int code)
    {
        for (int place = 0; place < ResponseMatrix.ItemsPerCode; place++)
        {
            Answer answer = ResponseMatrix.Digit(code, place);
            if (answer != Answer.Missing)
            {
                return (place, answer);
            }
        }

        return (-1, Answer.Missing);
    }

    private static int Without(int code, int place, Answer answer)
    {
        int power = 1;
        for (int i = 0; i < place; i++)
        {
            power *= 3;
        }

        return code + (((int)Answer.Missing - (int)answer) * power);
    }

    private delegate void Receive(int from, ReadOnlySpan<double> posteriors);

    private sealed class Worker
    {
        private nuint[] rows = [];

        public Worker(int from, int to, int bucketLength, int nodes)
        {
            From = from;
            To = to;
            Buckets = new double[bucketLength];
            Logs = new double[Batch * nodes];
        }

        public int From { get; }

        public int To { get; }

        public double[] Buckets { get; }

        public double[] Logs { get; }

        public double LogLikelihood { get; set; }

        public Span<nuint> Rows(int groups, int batch) => rows.Length == 0 ? rows = new nuint[groups * batch] : rows;
    }
}
