using System.Collections.Immutable;

namespace Homestretch.Core.Standing;

/// <summary>What the model takes for granted about one person when nothing else is known. All on the logit scale.</summary>
/// <remarks>Every value here is an assumption of ours, wide on purpose, until a cohort's data replace it.
/// docs/model.md lists them with what they mean in percentages.</remarks>
public sealed record StandingAssumptions
{
    /// <summary>The documented defaults.</summary>
    public static StandingAssumptions Default { get; } = new();

    /// <summary>Prior mean of a person's overall ability.</summary>
    public double MeanAbility { get; init; }

    /// <summary>Prior standard deviation of a person's overall ability.</summary>
    public double AbilitySd { get; init; } = 1.0;

    /// <summary>Spread of a person's topics about their overall ability.</summary>
    public double TopicSd { get; init; } = 0.7;

    /// <summary>Spread of a topic's subtopics about the topic.</summary>
    public double SubtopicSd { get; init; } = 0.8;

    /// <summary>Variance that ability gains per day since the evidence (a random walk).</summary>
    public double DriftVariancePerDay { get; init; } = 0.002;

    /// <summary>Spread in difficulty of one test's items on one topic against the pool: two draws of items are never equally hard.</summary>
    public double TopicFormSd { get; init; } = 0.25;

    /// <summary>Spread in difficulty of practice tests as a whole against the real exam.</summary>
    public double FormSd { get; init; } = 0.2;

    /// <summary>The same where the evidence is the exam owner's own report: official forms are made to match.</summary>
    public double OfficialFormSd { get; init; } = 0.1;

    /// <summary>Topics that are easier (above 0) or harder for everybody than the person's overall ability says, in logits; by name, where a cohort has shown it.</summary>
    public ImmutableDictionary<string, double> TopicShifts { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Name of the test on which a cohort has shown these figures, compared without regard to case; null where none has.</summary>
    public string? LearnedOn { get; init; }

    /// <summary>Spread in difficulty of single items within a topic, where a cohort has shown it; 0 otherwise.</summary>
    public double ItemSpread { get; init; }

    /// <summary>How much easier (above 0) or harder the exam's items on a topic are expected to be than those the priors were learned on, in logits.</summary>
    public ImmutableDictionary<string, double> ExamShifts { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Standard deviation of those differences, before the exam's own draw of items.</summary>
    public ImmutableDictionary<string, double> ExamShiftSds { get; init; } = ImmutableDictionary<string, double>.Empty;

    /// <summary>Whether a test of this name is the one the priors were learned on, item for item.</summary>
    public bool IsLearnedOn(string? test) => ItemSpread > 0 && LearnedOn is not null && string.Equals(LearnedOn, test, StringComparison.OrdinalIgnoreCase);

    /// <summary>Spread between the difficulty that the priors and the evidence speak of and that of <paramref name="examItems"/> fresh items on a topic.</summary>
    public double ExamTopicFormSd(string topic, int examItems)
    {
        double learned = ExamShiftSds.GetValueOrDefault(topic);
        double draw = FreshItemsSd(examItems);
        return Math.Sqrt((draw * draw) + (learned * learned));
    }

    /// <summary>Spread between the pool's difficulty on a topic and that of <paramref name="items"/> items drawn from it.</summary>
    internal double FreshItemsSd(int items)
        => Math.Sqrt((TopicFormSd * TopicFormSd) + (items == 0 ? 0 : ItemSpread * ItemSpread / items));

    /// <summary>How much easier than the prior says a test's items on a topic are expected to be, and the spread about that.</summary>
    /// <param name="topic">The topic.</param>
    /// <param name="test">The test's name; null where the items are of several tests.</param>
    /// <param name="items">Its items on the topic, one or more.</param>
    internal (double Shift, double Sd) EvidenceItems(string topic, string? test, int items)
        => ItemSpread == 0 || IsLearnedOn(test) ? (0, TopicFormSd) : (ExamShifts.GetValueOrDefault(topic), ExamTopicFormSd(topic, items));
}
