using Homestretch.Core.Deciding;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>What one more test would change.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="Items">Items of the test.</param>
/// <param name="Minutes">Minutes it takes with going over it.</param>
/// <param name="Without">Pass chance with the best plan without it, 0 to 1.</param>
/// <param name="WithTest">Expected pass chance with it.</param>
/// <param name="Information">What knowing the result is worth, in pass chance.</param>
/// <param name="MinutesCost">What its minutes would have added as study, in pass chance.</param>
/// <param name="Net">Gain in all; negative where study is better.</param>
/// <param name="StandardError">Standard error of the information's worth, from the number of results tried.</param>
/// <param name="Doubt">Standard deviation of the pass chance that the result would show.</param>
/// <param name="Results">Results tried.</param>
/// <param name="Reason">What the figures say, in a sentence.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
public sealed record TestValueDocument(
    string Exam,
    string Candidate,
    int Items,
    int Minutes,
    double Without,
    double WithTest,
    double Information,
    double MinutesCost,
    double Net,
    double StandardError,
    double Doubt,
    int Results,
    string Reason,
    BasisFields Basis)
{
    /// <summary>The document of a test's value.</summary>
    public static TestValueDocument Of(string candidate, CandidateStanding standing, StandingBasis basis, TestValue value)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(basis);
        ArgumentNullException.ThrowIfNull(value);
        return new(
            standing.Exam.Name,
            candidate,
            value.Test.Items.Sum(),
            value.Test.Minutes,
            value.Without,
            value.WithTest,
            value.Information,
            value.Minutes,
            value.Net,
            value.StandardError,
            value.Doubt,
            value.Results,
            value.Reason,
            BasisFields.Of(basis, standing));
    }
}
