using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>The study a person has done and what it changes.</summary>
/// <param name="Sessions">How many sessions.</param>
/// <param name="Topics">Topics that were studied, in the order of the exam.</param>
/// <param name="Now">The outcome if the exam were sat now.</param>
/// <param name="Without">The same had there been no study.</param>
/// <param name="AtAssumedRate">The same if this person learned exactly as fast as was assumed before any test; null where no test has been taken after study, so that nothing else is known.</param>
public sealed record StudyDone(int Sessions, ImmutableArray<TopicStudy> Topics, ScoreOutcome Now, ScoreOutcome Without, ScoreOutcome? AtAssumedRate)
{
    /// <summary>Minutes of study in all.</summary>
    public int Minutes => Topics.Sum(t => t.Minutes);

    /// <summary>The study that a standing rests on.</summary>
    /// <param name="standing">The standing.</param>
    /// <param name="atAssumedRate">The standing of the same evidence and study with the assumed rate taken for certain (spread 0); null where that is not wanted.</param>
    public static StudyDone Of(CandidateStanding standing, CandidateStanding? atAssumedRate)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ScoreModel model = new(standing);
        ScoreOutcome now = model.Outcome(model.EffortNow);
        ScoreOutcome without = model.Outcome(new double[standing.Topics.Length]);
        ILookup<string, StudySession> byTopic = standing.Study.Sessions.ToLookup(s => s.Topic, StringComparer.Ordinal);
        return new StudyDone(
            standing.Study.Sessions.Length,
            [
                .. standing.Exam.Topics.Index()
                    .Where(t => byTopic.Contains(t.Item.Name))
                    .Select(t => new TopicStudy(
                        t.Item,
                        byTopic[t.Item.Name].Sum(s => s.Minutes),
                        byTopic[t.Item.Name].Max(s => s.Date),
                        now.TopicExpected[t.Index] - without.TopicExpected[t.Index])),
            ],
            now,
            without,
            standing.Rate is { Tests: > 0 } && atAssumedRate is not null ? new ScoreModel(atAssumedRate) is var other ? other.Outcome(other.EffortNow) : null : null);
    }
}
