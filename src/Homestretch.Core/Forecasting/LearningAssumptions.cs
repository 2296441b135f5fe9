namespace Homestretch.Core.Forecasting;

/// <summary>What the model takes for granted about learning and forgetting.</summary>
/// <remarks>All values are assumptions of ours unless a source is named; docs/model.md says what each means for a plan.</remarks>
public sealed record LearningAssumptions
{
    /// <summary>The documented defaults.</summary>
    public static LearningAssumptions Default { get; } = new();

    /// <summary>Median gain in ability on an average topic per hour of focused study, in logits.</summary>
    public double RatePerHour { get; init; } = 0.15;

    /// <summary>Standard deviation of the logarithm of that rate between people: the rate is log-normal.</summary>
    public double RateLogSd { get; init; } = 0.5;

    /// <summary>A topic with more items is broader, so an hour moves it less: the gain goes with (items / mean items)^-breadth.</summary>
    public double Breadth { get; init; } = 0.5;

    /// <summary>Days in the retention law (1 + days / scale)^-exponent, the power law of Wickelgren (1974).</summary>
    public double RetentionScaleDays { get; init; } = 2;

    /// <summary>Exponent of the retention law after study on a single day.</summary>
    public double RetentionExponent { get; init; } = 0.2;

    /// <summary>Study on d different days divides the retention exponent by d to this power: what is met again on another day is forgotten more slowly.</summary>
    public double Spacing { get; init; } = 0.5;

    /// <summary>What a minute of light review is worth against a minute of study.</summary>
    public double ReviewShare { get; init; } = 0.5;

    /// <summary>Hours on one topic bring less and less: none brings more than this many first hours would, at their pace.</summary>
    public double SaturationHours { get; init; } = 10;

    /// <summary>First hours that <paramref name="hours"/> on one topic are worth: S (1 - exp(-hours / S)).</summary>
    public double Effective(double hours) => SaturationHours * (1 - Math.Exp(-hours / SaturationHours));

    /// <summary>How much an hour moves a topic of <paramref name="items"/> items against an average one.</summary>
    public double BreadthFactor(double items, double meanItems) => Math.Pow(items / meanItems, -Breadth);

    /// <summary>Share of a gain that is left after <paramref name="days"/>, when the topic is studied on <paramref name="studyDays"/> different days.</summary>
    public double Retention(double days, int studyDays)
        => Math.Pow(1 + (days / RetentionScaleDays), -RetentionExponent / Math.Pow(Math.Max(1, studyDays), Spacing));
}
