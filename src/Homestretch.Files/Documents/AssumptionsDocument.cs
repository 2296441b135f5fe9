using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>Which assumptions a plan hangs on.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="PassChance">Pass chance of the plan with the values in use, 0 to 1.</param>
/// <param name="Sentences">What the figures say.</param>
/// <param name="Assumptions">Those that matter most to the plan first, then those that matter most to the pass chance.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
public sealed record AssumptionsDocument(
    string Exam, string Candidate, double PassChance, ImmutableArray<string> Sentences, ImmutableArray<VariedAssumptionFields> Assumptions, BasisFields Basis)
{
    /// <summary>The document of a table.</summary>
    public static AssumptionsDocument Of(string candidate, CandidateStanding standing, StandingBasis basis, SensitivityTable table)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(table);
        return new(standing.Exam.Name, candidate, table.PassChance, table.Sentences, [.. table.Effects.Select(VariedAssumptionFields.Of)], BasisFields.Of(basis, standing));
    }
}
