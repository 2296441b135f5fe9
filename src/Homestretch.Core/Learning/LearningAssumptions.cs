using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Learning;

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

    /// <summary>Hours on one topic bring less and less: none brings more than this many first hours would, at their pace.</summary>
    public double SaturationHours { get; init; } = 10;

    /// <summary>Days in the retention law (1 + days / scale)^-exponent, the power law of Wickelgren (1974).</summary>
    public double RetentionScaleDays { get; init; } = 2;

    /// <summary>Exponent of the retention law after study on a single day.</summary>
    public double RetentionExponent { get; init; } = 0.2;

    /// <summary>Study on d spaced days divides the retention exponent by d to this power: what is met again on another day is forgotten more slowly.</summary>
    public double Spacing { get; init; } = 0.5;

    /// <summary>A day of study g days after the last counts as g / (g + this) of a spaced day: study again on the same day not at all, the next day half, a week later nearly whole.</summary>
    /// <remarks>With 1 the gap between two study days that is best for a test after 7, 35, 70 and 350 days is about 2, 8, 12 and 31 days; Cepeda et al. (2008) found about 3, 8, 12 and 27.</remarks>
    public double SpacingDays { get; init; } = 1;

    /// <summary>Worked examples (assumption: as good as teaching).</summary>
    public StudyEffect WorkedExamples { get; init; } = new(1, 1);

    /// <summary>Items with feedback: answering is forgotten more slowly than reading (Roediger &amp; Karpicke 2006: 56 against 42 % recalled after a week, from 75 and 81 % at first;
    /// high utility in Dunlosky et al. 2013). Their exponents stand as 0.44 to 1; the default lies nearer to 1, since exam items are not recall of a text.</summary>
    public StudyEffect PracticeItems { get; init; } = new(0.95, 0.7);

    /// <summary>Recall of terms: as <see cref="PracticeItems"/>, nearer to the experiment.</summary>
    public StudyEffect Retrieval { get; init; } = new(0.95, 0.6);

    /// <summary>Light review: reading again is of low utility (Dunlosky et al. 2013); that it is half is an assumption.</summary>
    public StudyEffect Review { get; init; } = new(0.5, 1);

    /// <summary>What an hour of a kind of study does.</summary>
    public StudyEffect Effect(StudyKind kind) => kind switch
    {
        StudyKind.WorkedExamples => WorkedExamples,
        StudyKind.PracticeItems => PracticeItems,
        StudyKind.Retrieval => Retrieval,
        StudyKind.Review => Review,
        _ => new StudyEffect(1, 1),
    };

    /// <summary>First hours that <paramref name="hours"/> on one topic are worth: S (1 - exp(-hours / S)).</summary>
    public double Effective(double hours) => SaturationHours * (1 - Math.Exp(-hours / SaturationHours));

    /// <summary>How much an hour moves a topic of <paramref name="items"/> items against an average one.</summary>
    public double BreadthFactor(double items, double meanItems) => Math.Pow(items / meanItems, -Breadth);

    /// <summary>The factors of all topics of an exam.</summary>
    public double[] BreadthFactors(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        double meanItems = (double)exam.ScoredItems / exam.Topics.Length;
        return [.. exam.Topics.Select(t => BreadthFactor(Math.Max(1, t.Items), meanItems))];
    }

    /// <summary>Share of a gain that is left after <paramref name="days"/>, when the topic is studied on <paramref name="spacedDays"/> well-spaced days.</summary>
    public double Retention(double days, double spacedDays)
        => Math.Pow(1 + (days / RetentionScaleDays), -RetentionExponent / Math.Pow(Math.Max(1, spacedDays), Spacing));

    /// <summary>What a day of study counts as a well-spaced day when the last one was <paramref name="gap"/> days before.</summary>
    public double SpacedDay(double gap) => gap / (gap + SpacingDays);

    /// <summary>Well-spaced days that the days of study amount to.</summary>
    /// <param name="study">Study of one topic, earliest first.</param>
    /// <param name="day">Study after this day does not count.</param>
    public double SpacedDays(ReadOnlySpan<StudyMoment> study, int day)
    {
        double days = study.IsEmpty ? 0 : 1;
        for (int i = 1; i < study.Length && study[i].Day <= day; i++)
        {
            days += SpacedDay(study[i].Day - study[i - 1].Day);
        }

        return days;
    }

    /// <summary>Hours of study on one topic that are left on <paramref name="day"/>, as hours of fresh teaching.</summary>
    /// <param name="study">Study of one topic, earliest first.</param>
    /// <param name="day">The day; study after it does not count, study on it is fresh.</param>
    public double Retained(ReadOnlySpan<StudyMoment> study, int day)
    {
        double exponent = -RetentionExponent / Math.Pow(Math.Max(1, SpacedDays(study, day)), Spacing);
        double hours = 0;
        foreach (StudyMoment moment in study)
        {
            if (moment.Day > day)
            {
                break;
            }

            StudyEffect effect = Effect(moment.Kind);
            hours += effect.Gain * moment.Hours * Math.Pow(1 + ((day - moment.Day) / RetentionScaleDays), exponent * effect.Forgetting);
        }

        return hours;
    }
}
