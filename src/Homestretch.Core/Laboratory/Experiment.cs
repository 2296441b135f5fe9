using System.Collections.Immutable;

namespace Homestretch.Core.Laboratory;

/// <summary>Tries policies on simulated candidates.</summary>
public static class Experiment
{
    private const int ChunkSize = 50;

    /// <summary>Runs every policy on every candidate of every scenario.</summary>
    /// <param name="options">What to try.</param>
    /// <param name="progress">Told after every few candidates; null for none. Calls may come from several threads at once.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>Candidate number n has the same abilities, answers and absences under every policy and in every scenario, on however many threads.
    /// Memory does not grow with the number of candidates.</remarks>
    public static ImmutableArray<ScenarioResult> Run(ExperimentOptions options, IProgress<ExperimentProgress>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(options);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(options.Candidates, nameof(options));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(options.Exams, nameof(options));
        return [.. options.Scenarios.Select(scenario => Run(scenario, options, progress, cancellation))];
    }

    private static ScenarioResult Run(Scenario scenario, ExperimentOptions options, IProgress<ExperimentProgress>? progress, CancellationToken cancellation)
    {
        ScenarioWorld world = new(scenario, options.Seed, options.Exams);
        Tally all = new(options.Policies.Length);
        int done = 0;
        int chunks = (options.Candidates + ChunkSize - 1) / ChunkSize;
        ParallelOptions parallel = new() { MaxDegreeOfParallelism = options.Threads ?? Environment.ProcessorCount, CancellationToken = cancellation };
        Parallel.For(
            0,
            chunks,
            parallel,
            () => (Simulator: new Simulator(world, options.Policies), Tally: new Tally(options.Policies.Length)),
            (chunk, _, local) =>
            {
                int end = Math.Min(options.Candidates, (chunk + 1) * ChunkSize);
                for (int candidate = chunk * ChunkSize; candidate < end; candidate++)
                {
                    cancellation.ThrowIfCancellationRequested();
                    local.Tally.Add(local.Simulator.Run(candidate));
                }

                progress?.Report(new ExperimentProgress(scenario, Interlocked.Add(ref done, end - (chunk * ChunkSize)), options.Candidates));
                return local;
            },
            local =>
            {
                lock (all)
                {
                    all.Add(local.Tally);
                }
            });
        return ScenarioResult.Of(scenario, options.Policies, all);
    }
}
