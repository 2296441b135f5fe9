using System.Diagnostics;
using System.Globalization;

using Homestretch.Core.Laboratory;
using Homestretch.Laboratory;

// Writes the laboratory's tables into a page, between its two marks. Usage: bench/laboratory/run [candidates] [seed]
CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
string page = args[0];
ExperimentOptions options = new()
{
    Candidates = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 20_000,
    Seed = args.Length > 2 ? long.Parse(args[2], CultureInfo.InvariantCulture) : 1,
};
Stopwatch watch = Stopwatch.StartNew();
List<ScenarioResult> results = [];
foreach (Scenario scenario in options.Scenarios)
{
    results.AddRange(Experiment.Run(options with { Scenarios = [scenario] }));
    Console.Error.WriteLine($"{watch.Elapsed.TotalSeconds,6:F0} s  {scenario.Name}");
}

// One policy, as the speed goal has it.
Stopwatch one = Stopwatch.StartNew();
TimeSpan before = Process.GetCurrentProcess().TotalProcessorTime;
Experiment.Run(options with { Scenarios = [Scenarios.All[0]], Policies = [LaboratoryPolicy.Optimised], Candidates = 100_000 });
TimeSpan used = Process.GetCurrentProcess().TotalProcessorTime - before;
one.Stop();

Process process = Process.GetCurrentProcess();
string tables = string.Join('\n', [
    .. EvidenceTables.Of([.. results]),
    "",
    $"Made by `bench/laboratory/run {options.Candidates} {options.Seed}`: {results.Count} scenarios x {options.Policies.Length} policies x {options.Candidates} candidates on {Environment.ProcessorCount} cores in "
        + $"{(watch.Elapsed - one.Elapsed).TotalMinutes:F0} min; then 100,000 candidates of the first scenario under the optimised policy in {one.Elapsed.TotalSeconds:F0} s ({used.TotalSeconds:F0} s of processor time). "
        + $"Most memory used at any time: {process.PeakWorkingSet64 / 1e6:F0} MB.",
]);
EvidenceTables.Replace(page, tables);
