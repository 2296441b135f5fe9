using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>What a standing rests on besides the person's own answers.</summary>
/// <param name="Sentences">The same in words.</param>
/// <param name="Priors"><c>learned</c> from a cohort, or <c>defaults</c>.</param>
/// <param name="Test">The test that the priors were learned on; null where the defaults are in force.</param>
/// <param name="People">People with results of the test that most of them took; 0 where there is no cohort.</param>
/// <param name="Assumptions">Every figure taken for granted, and which were learned.</param>
/// <param name="Topics">What the cohort showed on each topic; empty where the defaults are in force.</param>
/// <param name="Bank">What the item bank was good for; null where none was given.</param>
public sealed record BasisFields(
    ImmutableArray<string> Sentences,
    string Priors,
    string? Test,
    int People,
    ImmutableArray<AssumptionFields> Assumptions,
    ImmutableArray<TopicMeanFields> Topics,
    BankUseFields? Bank)
{
    internal static BasisFields Of(StandingBasis basis, CandidateStanding standing)
    {
        StandingAssumptions now = basis.Assumptions;
        StandingAssumptions usual = StandingAssumptions.Default;
        CohortPrior? prior = basis.Prior;
        return new(
            basis.Sentences(standing),
            prior is null ? "defaults" : "learned",
            prior?.Test,
            basis.People,
            [
                Figure(nameof(now.MeanAbility), now.MeanAbility, usual.MeanAbility, prior is not null, prior?.MeanAbility),
                Figure(nameof(now.AbilitySd), now.AbilitySd, usual.AbilitySd, prior is not null, prior?.AbilitySd),
                Figure(nameof(now.TopicSd), now.TopicSd, usual.TopicSd, prior is not null, prior?.TopicSd),
                Figure(nameof(now.SubtopicSd), now.SubtopicSd, usual.SubtopicSd, false, null),
                Figure(nameof(now.ItemSpread), now.ItemSpread, usual.ItemSpread, now.ItemSpread != usual.ItemSpread, null),
                Figure(nameof(now.TopicFormSd), now.TopicFormSd, usual.TopicFormSd, now.TopicFormSd != usual.TopicFormSd, null),
                Figure(nameof(now.FormSd), now.FormSd, usual.FormSd, now.FormSd != usual.FormSd, null),
                Figure(nameof(now.OfficialFormSd), now.OfficialFormSd, usual.OfficialFormSd, now.OfficialFormSd != usual.OfficialFormSd, null),
            ],
            prior is null ? [] : [.. standing.Exam.Topics.Where(t => prior.TopicMeans.ContainsKey(t.Name)).Select(t => new TopicMeanFields(
                t.Name,
                prior.Items[t.Name],
                prior.TopicMeans[t.Name].Value,
                Finite(prior.TopicMeans[t.Name].StandardError),
                now.ExamShifts.GetValueOrDefault(t.Name)))],
            basis.Bank is { } bank ? new BankUseFields(bank.Items.Length, standing.CalibratedItems, standing.EvidenceItems) : null);
    }

    private static AssumptionFields Figure(string name, double value, double usual, bool learned, Estimate? estimate)
        => new(name, value, usual, learned, estimate is { } e ? Finite(e.StandardError) : null);

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
