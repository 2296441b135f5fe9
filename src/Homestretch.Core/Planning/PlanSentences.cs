using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning;

/// <summary>Why a plan is as it is, in sentences a candidate understands.</summary>
internal sealed class PlanSentences
{
    private const int WorthMinutes = 30;

    private readonly CandidateStanding standing;
    private readonly PlanDraft draft;
    private readonly IReadOnlyList<double> now;
    private readonly IReadOnlyList<double> after;
    private readonly EffortChange[] next;

    public PlanSentences(CandidateStanding standing, PlanDraft draft, ScoreOutcome now, ScoreOutcome after, ScoreModel coarse)
    {
        this.standing = standing;
        this.draft = draft;
        this.now = now.TopicExpected;
        this.after = after.TopicExpected;
        next = new EffortChange[standing.Topics.Length];
        coarse.Marginal(draft.Effort, [.. coarse.BreadthFactors.Select(b => b * WorthMinutes / 60.0)], next, new EffortChange[next.Length]);
    }

    /// <summary>Why a topic gets its minutes.</summary>
    public string ForMinutes(int topic)
    {
        TopicStanding at = standing.Topics[topic];
        if (draft.Pieces.Where(p => p.Topic == topic).All(p => p.Purpose == BlockPurpose.Review))
        {
            return $"{Describe(at)}: a light review keeps it fresh and adds {Items(after[topic] - now[topic])}.";
        }

        return $"{Describe(at)}: this time lifts you from about {Percent(now[topic] / at.Topic.Items)} to about {Percent(after[topic] / at.Topic.Items)} by exam day, {Items(after[topic] - now[topic])} more.";
    }

    /// <summary>Why a topic gets none.</summary>
    public string ForLeftAlone(int topic)
    {
        TopicStanding at = standing.Topics[topic];
        if (draft.Pieces.IsEmpty)
        {
            return "There is no free time for it before the exam.";
        }

        int best = Enumerable.Range(0, next.Length).Where(t => draft.MinutesOn(t) > 0).MaxBy(t => Allocator.Value(next[t]));
        string comparison = draft.Enough
            ? $"half an hour would add only {Items(next[topic].Score)}, so the time is better spent resting"
            : next[topic].Score >= next[best].Score || Figure(next[topic].Score) == Figure(next[best].Score)
                ? $"half an hour would raise your pass chance by {Figure(next[topic].Pass * 100)} points, against {Figure(next[best].Pass * 100)} on {standing.Topics[best].Topic.Name}"
                : $"half an hour would add {Figure(next[topic].Score)} items, against {Figure(next[best].Score)} on {standing.Topics[best].Topic.Name}";
        return $"{Describe(at)}: {comparison}.";
    }

    /// <summary>Why a block is where it is.</summary>
    public string ForBlock(PlacedPiece piece, int number, int of)
    {
        TopicStanding at = standing.Topics[piece.Topic];
        string name = at.Topic.Name;
        return piece.Purpose switch
        {
            BlockPurpose.Learn when number == 1 =>
                $"{name} is {at.Level.Band.Word()} and {at.Topic.WeightClass.Word()} ({at.Topic.Items} items): its blocks add about {Items(after[piece.Topic] - now[piece.Topic])} by exam day.",
            BlockPurpose.Learn => $"{name} stands at about {Percent(at.Level.Mean)}, so understanding comes before practice: block {number} of {of}.",
            BlockPurpose.Practise => $"Answering items on {name} after a pause makes it last: block {number} of {of}.",
            BlockPurpose.Quiz => $"A short quiz shows whether {name} has moved from about {Percent(now[piece.Topic] / at.Topic.Items)} towards {Percent(after[piece.Topic] / at.Topic.Items)}.",
            _ => of == 1
                ? $"A quick look at {name} ({at.Level.Band.Word()}, {at.Topic.Items} items), nothing new so near the exam."
                : $"Light review keeps {name} fresh for its {at.Topic.Items} items; nothing new so near the exam.",
        };
    }

    /// <summary>What to know about the plan as a whole.</summary>
    public IEnumerable<string> Notes(int freeMinutes)
    {
        if (draft.Enough && draft.Minutes < freeMinutes)
        {
            yield return $"More time is free than is worth using: after {Hours(draft.Minutes)} of study another block would hardly change the pass chance. Rest instead.";
        }

        foreach (TopicStanding topic in standing.Topics)
        {
            foreach (SubtopicStanding part in topic.Subtopics.Where(s => s.HiddenHole))
            {
                yield return $"{topic.Topic.Name} as a whole is {topic.Level.Band.Word()}, but {part.Name} within it looks weak (about {Percent(part.Level.Mean)}): begin there.";
            }
        }
    }

    private static string Describe(TopicStanding at) => $"{Capital(at.Topic.WeightClass.Word())} ({at.Topic.Items} items) and {at.Level.Band.Word()}";

    private static string Capital(string word) => char.ToUpperInvariant(word[0]) + word[1..];

    /// <summary>A share of 1 as a whole percentage, "64 %".</summary>
    internal static string Percent(double share) => (share * 100).ToString("F0", CultureInfo.InvariantCulture) + " %";

    /// <summary>A difference of pass chances in points, to a tenth.</summary>
    internal static string Points(double share) => share < 0.0005 ? "less than 0.1 points" : string.Create(CultureInfo.InvariantCulture, $"{share * 100:0.0} points");

    private static string Items(double items)
        => items < 0.05 ? "less than 0.1 items" : items.ToString("F1", CultureInfo.InvariantCulture) is var text && text == "1.0" ? "1 item" : $"{text} items";

    // Two decimals, so that near ties can be told apart.
    private static string Figure(double value) => value < 0.005 ? "less than 0.01" : value.ToString("F2", CultureInfo.InvariantCulture);

    private static string Hours(int minutes) => minutes % 60 == 0 ? $"{minutes / 60} h" : minutes < 60 ? $"{minutes} min" : $"{minutes / 60} h {minutes % 60} min";
}
