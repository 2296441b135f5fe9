using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Changes;
using Homestretch.Core.Planning.Resources;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;
using Homestretch.Files.StudyLogs;

namespace Homestretch.Files;

/// <summary>Everything that is said about one person at one time: what a page or a handout shows.</summary>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="Standing">Where the person stands.</param>
/// <param name="Basis">The assumptions and calibrated items that the standing rests on.</param>
/// <param name="Forecast">What to expect on the exam without more study.</param>
/// <param name="Worth">What the next minutes on each topic are worth, in exam topic order.</param>
/// <param name="Plan">The plan to the exam; null where none was asked for.</param>
public sealed record CandidateReport(
    string Candidate,
    CandidateStanding Standing,
    StandingBasis Basis,
    Forecast Forecast,
    ImmutableArray<TopicWorth> Worth,
    StudyPlan? Plan)
{
    /// <summary>The study that was done; null where no log was given.</summary>
    public StudyReport? Study { get; init; }

    /// <summary>What would change the plan; null where that was not asked for.</summary>
    public PlanChanges? Changes { get; init; }

    /// <summary>The material that goes with the plan; null where no catalogue was given.</summary>
    public PlanMaterial? Material { get; init; }

    /// <summary>The pass chance at every plan so far, oldest first; empty where no earlier plans are known.</summary>
    public ImmutableArray<PassMoment> History { get; init; } = [];

    /// <summary>What would change the plan's time on a topic, in a sentence; null where that was not asked for.</summary>
    public string? ChangeOf(ExamTopic topic)
    {
        ArgumentNullException.ThrowIfNull(topic);
        return Changes?.Topics[topic.Name].Sentence;
    }
}
