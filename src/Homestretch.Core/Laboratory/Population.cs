using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Laboratory;

/// <summary>Whom a scenario's candidates are drawn from. The defaults are the planner's own assumptions.</summary>
public sealed record Population
{
    /// <summary>Mean overall ability, in logits.</summary>
    public double MeanAbility { get; init; } = StandingAssumptions.Default.MeanAbility;

    /// <summary>Standard deviation of overall ability.</summary>
    public double AbilitySd { get; init; } = StandingAssumptions.Default.AbilitySd;

    /// <summary>Spread of a person's topics about the overall ability.</summary>
    public double TopicSd { get; init; } = StandingAssumptions.Default.TopicSd;

    /// <summary>Variance that each topic's ability gains per day, up or down.</summary>
    public double DriftVariancePerDay { get; init; } = StandingAssumptions.Default.DriftVariancePerDay;

    /// <summary>Median gain on an average topic per hour of study, in logits.</summary>
    public double RatePerHour { get; init; } = LearningAssumptions.Default.RatePerHour;

    /// <summary>Standard deviation of the logarithm of that rate between people.</summary>
    public double RateLogSd { get; init; } = LearningAssumptions.Default.RateLogSd;
}
