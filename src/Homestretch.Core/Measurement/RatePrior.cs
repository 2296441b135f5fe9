using Homestretch.Core.Learning;

namespace Homestretch.Core.Measurement;

/// <summary>How fast people of a cohort learn, from their tests before and after study.</summary>
/// <param name="Persons">People with study and a test after it.</param>
/// <param name="LogRate">Mean of the logarithm of the rate (logits per first hour on an average topic), with its standard error.</param>
/// <param name="LogSd">Standard deviation of that logarithm between people, with its standard error.</param>
public sealed record RatePrior(int Persons, Estimate LogRate, Estimate LogSd)
{
    /// <summary>The median rate.</summary>
    public double RatePerHour => Math.Exp(LogRate.Value);

    /// <summary>The assumptions on learning with these figures in place of the assumed rate and spread.</summary>
    public LearningAssumptions ToAssumptions(LearningAssumptions others)
    {
        ArgumentNullException.ThrowIfNull(others);
        return others with { RatePerHour = RatePerHour, RateLogSd = LogSd.Value };
    }
}
