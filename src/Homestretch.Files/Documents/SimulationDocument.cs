using System.Collections.Immutable;

using Homestretch.Core.Laboratory;

namespace Homestretch.Files.Documents;

/// <summary>What became of simulated candidates under each policy.</summary>
/// <param name="Seed">Where all chance came from: the same seed gives the same figures.</param>
/// <param name="Exams">Made-up exams that the candidates shared.</param>
/// <param name="Scenarios">In the order asked for.</param>
public sealed record SimulationDocument(long Seed, int Exams, ImmutableArray<ScenarioFields> Scenarios)
{
    /// <summary>The document of an experiment.</summary>
    public static SimulationDocument Of(ExperimentOptions options, ImmutableArray<ScenarioResult> results)
    {
        ArgumentNullException.ThrowIfNull(options);
        return new(options.Seed, options.Exams, [.. results.Select(ScenarioFields.Of)]);
    }
}
