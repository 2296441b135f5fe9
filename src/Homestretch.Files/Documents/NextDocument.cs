using System.Collections.Immutable;

using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Standing;
using Homestretch.Files.StudyLogs;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>A quick diagnostic's next step.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name.</param>
/// <param name="AsOf">The day of the diagnostic, ISO 8601.</param>
/// <param name="EvidenceItems">Items answered in all attempts.</param>
/// <param name="Target"><c>pass</c> or <c>levels</c>: what it is to find out.</param>
/// <param name="Given">Items of the bank answered in this diagnostic.</param>
/// <param name="Pass">How well the pass chance is known.</param>
/// <param name="Levels">Standing on the topics where study moves the pass chance; empty unless the target is <c>levels</c>.</param>
/// <param name="Bank">What the bank has left.</param>
/// <param name="Stop">Why it may stop; null when it should go on.</param>
/// <param name="Items">What to give next, in order.</param>
/// <param name="Doubt">What is not known of the target, as a variance: of the pass chance, or of the chances of the levels together.</param>
/// <param name="DoubtAfter">What is expected to be left of it after the items.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
public sealed record NextDocument(
    string Exam,
    string Candidate,
    string AsOf,
    int EvidenceItems,
    string Target,
    int Given,
    PassSurenessFields Pass,
    ImmutableArray<TopicStandingFields> Levels,
    BankStockFields Bank,
    StopFields? Stop,
    ImmutableArray<NextItemFields> Items,
    double Doubt,
    double DoubtAfter,
    BasisFields Basis)
{
    /// <summary>The document of a step.</summary>
    public static NextDocument Of(StudiedCandidate person, CandidateStanding standing, DiagnosticStep step)
    {
        ArgumentNullException.ThrowIfNull(person);
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(step);
        return new(
            standing.Exam.Name,
            person.Name,
            LocalDatePattern.Iso.Format(standing.AsOf),
            standing.EvidenceItems,
            Words.Of(step.Rules.Target),
            step.Given,
            new PassSurenessFields(step.Pass.Mean, step.Pass.Sd, step.Pass.Low, step.Pass.High),
            [.. step.Levels.Select(TopicStandingFields.Of)],
            new BankStockFields(step.Stock.Items, step.Stock.Answered, step.Stock.TooFamiliar, step.Stock.OutOfTurn, step.Stock.Open, [.. step.Stock.Lacking.Select(t => t.Name)]),
            step.Stop is { } reason ? new StopFields(Words.Of(reason), StepSentences.Stop(step)!) : null,
            [.. step.Items.Select(item => NextItemFields.Of(step, item))],
            step.Doubt,
            step.DoubtAfter,
            BasisFields.Of(person.Basis, standing));
    }
}
