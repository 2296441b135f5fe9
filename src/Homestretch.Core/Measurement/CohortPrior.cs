using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>What a cohort's results on one test say about people of its kind, in place of the documented defaults.</summary>
/// <param name="Persons">People it was estimated from.</param>
/// <param name="AbilitySd">Spread of overall ability between people, with its standard error.</param>
/// <param name="TopicSd">Spread of one person's topics about their overall ability, with its standard error.</param>
/// <param name="TopicMeans">Mean ability per topic (logits), on the scale of that test's own items.</param>
/// <param name="ItemSpread">Spread in difficulty of single items within a topic; 0 where only counts are known.</param>
/// <param name="Items">Items per topic in that test.</param>
/// <param name="LogLikelihood">Log-likelihood at the maximum.</param>
public sealed record CohortPrior(
    int Persons,
    Estimate AbilitySd,
    Estimate TopicSd,
    ImmutableDictionary<string, Estimate> TopicMeans,
    double ItemSpread,
    ImmutableDictionary<string, int> Items,
    double LogLikelihood)
{
    /// <summary>Mean of the topics' mean abilities.</summary>
    public double MeanAbility => TopicMeans.Values.Average(m => m.Value);

    /// <summary>The model's assumptions with these estimates in the place of the defaults.</summary>
    /// <param name="formSd">What is still assumed about tests as a whole: see <see cref="StandingAssumptions.FormSd"/>.</param>
    public StandingAssumptions ToAssumptions(double formSd) => StandingAssumptions.Default with
    {
        MeanAbility = MeanAbility,
        AbilitySd = AbilitySd.Value,
        TopicSd = TopicSd.Value,
        TopicShifts = TopicMeans.ToImmutableDictionary(m => m.Key, m => m.Value.Value - MeanAbility),
        ItemSpread = ItemSpread,
        CohortItems = Items,
        TopicFormSd = ItemSpread > 0 ? 0 : StandingAssumptions.Default.TopicFormSd,
        FormSd = formSd,
        OfficialFormSd = Math.Min(formSd, StandingAssumptions.Default.OfficialFormSd),
    };
}
