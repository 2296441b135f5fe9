using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Cli.Prose;
using Homestretch.Core.Laboratory;
using Homestretch.Files;
using Homestretch.Files.Documents;

using Spectre.Console;
using Spectre.Console.Cli;

namespace Homestretch.Cli.Commands;

/// <summary>Tries the planner against other ways to study on simulated candidates.</summary>
public sealed class SimulateCommand(Answer answer) : Command<SimulateSettings>
{
    private const int MostCandidates = 10_000_000;

    private static readonly Dictionary<string, LaboratoryPolicy> _policies = Enum.GetValues<LaboratoryPolicy>().ToDictionary(Words.Of);
    private static readonly Dictionary<string, Scenario> _scenarios = Scenarios.All.ToDictionary(s => s.Name);

    /// <inheritdoc/>
    public override int Execute(CommandContext context, SimulateSettings settings, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(settings);
        ExperimentOptions options = new()
        {
            Scenarios = Named("--scenario", "scenario", settings.Scenarios, _scenarios),
            Policies = Named("--policy", "policy", settings.Policies, _policies),
            Candidates = (int)Whole("--candidates", settings.Candidates, 1, MostCandidates),
            Seed = Whole("--seed", settings.Seed, long.MinValue, long.MaxValue),
        };
        ImmutableArray<ScenarioResult> results = settings.Json || !answer.Console.Profile.Capabilities.Interactive
            ? Experiment.Run(options, cancellation: cancellationToken)
            : RunWithBar(options, cancellationToken);
        if (settings.Json)
        {
            answer.Output.WriteLine(DocumentJson.Write(SimulationDocument.Of(options, results)));
        }
        else
        {
            SimulationProse.Write(answer.Console, options, results);
        }

        return Shell.Done;
    }

    private ImmutableArray<ScenarioResult> RunWithBar(ExperimentOptions options, CancellationToken cancellation)
    {
        ImmutableArray<ScenarioResult> results = [];
        answer.Console.Progress().AutoClear(true).Start(bars =>
        {
            ProgressTask bar = bars.AddTask(options.Scenarios[0].Title, maxValue: (double)options.Scenarios.Length * options.Candidates);
            results = Experiment.Run(options, new Bar(bar, options), cancellation);
        });
        return results;
    }

    private static ImmutableArray<T> Named<T>(string option, string what, string[] names, Dictionary<string, T> known)
        where T : notnull
    {
        if (names.Length == 0)
        {
            return [.. known.Values];
        }

        ImmutableArray<T>.Builder found = ImmutableArray.CreateBuilder<T>(names.Length);
        foreach (string name in names)
        {
            if (!known.TryGetValue(name, out T? value))
            {
                string near = NearestName.Suggest(name, [.. known.Keys]) is { } n ? $"did you mean '{n}'?" : $"choose from {string.Join(", ", known.Keys)}.";
                throw new UsageException($"{option}: there is no {what} '{name}'; {near}");
            }

            if (!found.Contains(value))
            {
                found.Add(value);
            }
        }

        return found.ToImmutable();
    }

    private static long Whole(string option, string text, long least, long most)
        => long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out long number) && number >= least && number <= most
            ? number
            : throw new UsageException(least == long.MinValue
                ? $"{option} takes a whole number, such as 1; '{text}' is none."
                : $"{option} takes a whole number from {least} to {most}; '{text}' is none.");

    // Reports come from all threads; the bar itself may be told from any.
    private sealed class Bar(ProgressTask bar, ExperimentOptions options) : IProgress<ExperimentProgress>
    {
        public void Report(ExperimentProgress value)
        {
            int before = options.Scenarios.IndexOf(value.Scenario);
            lock (bar)
            {
                bar.Description = value.Scenario.Title;
                bar.Value = Math.Max(bar.Value, ((double)before * options.Candidates) + value.Done);
            }
        }
    }
}
