using System.Collections.Immutable;

using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>The assumptions that a plan rests on, with the plausible range of each about the value in use.</summary>
internal static class AssumptionRanges
{
    // Ten per cent faster or slower.
    private const double PaceOff = 0.1;

    /// <summary>The ranges for one person. Pace is among them where the time limit may matter to the person.</summary>
    /// <param name="figures">The figures in use.</param>
    /// <param name="timeMatters">Whether some item may not be reached in time.</param>
    public static ImmutableArray<VariedAssumption> Of(ModelFigures figures, bool timeMatters)
    {
        LearningAssumptions l = figures.Learning;
        StandingAssumptions s = figures.Standing;
        ImmutableArray<VariedAssumption> all =
        [
            Learning("RatePerHour", "how much an hour of study brings", l.RatePerHour, l.RatePerHour / 1.6, l.RatePerHour * 1.6, "assumption: about 2 to 5 points an hour on an average borderline topic", (a, v) => a with { RatePerHour = v }),
            Learning("RateLogSd", "how much people differ in that", l.RateLogSd, l.RateLogSd / 2, l.RateLogSd * 1.5, "assumption", (a, v) => a with { RateLogSd = v }),
            Learning("Breadth", "how much slower a topic with more items moves", l.Breadth, 0, 1, "the bounds of sense: not at all, and in proportion to its items", (a, v) => a with { Breadth = v }),
            Learning("SaturationHours", "after how many hours on one topic more bring little", l.SaturationHours, l.SaturationHours / 2, l.SaturationHours * 2, "assumption", (a, v) => a with { SaturationHours = v }),
            Learning("RetentionExponent", "how fast study is forgotten", l.RetentionExponent, l.RetentionExponent / 2, l.RetentionExponent * 2, "assumption: after 21 days 78 % or 37 % left of what was studied on one day", (a, v) => a with { RetentionExponent = v }),
            Learning("RetentionScaleDays", "when forgetting sets in", l.RetentionScaleDays, l.RetentionScaleDays / 2, l.RetentionScaleDays * 2, "assumption", (a, v) => a with { RetentionScaleDays = v }),
            Learning("Spacing", "how much study on several days slows forgetting", l.Spacing, l.Spacing / 2, l.Spacing * 1.5, "assumption", (a, v) => a with { Spacing = v }),
            Learning("SpacingDays", "how far apart such days should be", l.SpacingDays, l.SpacingDays / 2, l.SpacingDays * 2, "assumption, about the gaps of Cepeda et al. 2008", (a, v) => a with { SpacingDays = v }),
            Learning("PracticeItems forgetting", "how slowly answered items are forgotten", l.PracticeItems.Forgetting, Math.Min(0.44, l.PracticeItems.Forgetting), 1, "Roediger & Karpicke 2006 (0.44); no better than reading", (a, v) => a with { PracticeItems = a.PracticeItems with { Forgetting = v } }),
            Learning("Review gain", "what an hour of light review brings", l.Review.Gain, l.Review.Gain / 2, 1, "assumption: a quarter of teaching; as much", (a, v) => a with { Review = a.Review with { Gain = v } }),
            Standing("MeanAbility", "how good people are before their answers are seen", s.MeanAbility, s.MeanAbility - 0.5, s.MeanAbility + 0.5, "assumption", (a, v) => a with { MeanAbility = v }),
            Standing("AbilitySd", "how much people differ", s.AbilitySd, s.AbilitySd * 0.7, s.AbilitySd * 1.4, "assumption", (a, v) => a with { AbilitySd = v }),
            Standing("TopicSd", "how much one person's topics differ", s.TopicSd, s.TopicSd * 0.7, s.TopicSd * 1.4, "assumption", (a, v) => a with { TopicSd = v }),
            Standing("DriftVariancePerDay", "how fast ability drifts", s.DriftVariancePerDay, 0, s.DriftVariancePerDay * 3, "assumption: not at all; 0.42 logits after a month", (a, v) => a with { DriftVariancePerDay = v }),
            Standing("TopicFormSd", "how much tests differ on one topic", s.TopicFormSd, s.TopicFormSd * 0.4, s.TopicFormSd * 1.6, "assumption", (a, v) => a with { TopicFormSd = v }),
            Standing("FormSd", "how much tests differ from the exam as a whole", s.FormSd, s.FormSd / 2, s.FormSd * 1.75, "assumption; an official report's spread with it", (a, v) => a with { FormSd = v, OfficialFormSd = a.OfficialFormSd * v / s.FormSd }),
        ];
        return timeMatters
            ? all.Add(new(new("Pace", "the pace on exam day, as seconds an item against the tests'", 1, 1 - PaceOff, 1 + PaceOff, "assumption: 10 % faster or slower"), (f, v) => f with { Slower = Math.Log(v) }))
            : all;
    }

    private static VariedAssumption Learning(string name, string words, double value, double low, double high, string source, Func<LearningAssumptions, double, LearningAssumptions> change)
        => new(new(name, words, value, low, high, source), (f, v) => f with { Learning = change(f.Learning, v) });

    private static VariedAssumption Standing(string name, string words, double value, double low, double high, string source, Func<StandingAssumptions, double, StandingAssumptions> change)
        => new(new(name, words, value, low, high, source), (f, v) => f with { Standing = change(f.Standing, v) });
}
