using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning;

/// <summary>Blocks of one policy and what they are worth on exam day.</summary>
/// <param name="Pieces">In time order.</param>
/// <param name="Order">Topics in the policy's order of study.</param>
/// <param name="Effort">Per topic, the hours that count on exam day on a topic of average size.</param>
/// <param name="Enough">True where the policy left time free because more would add too little.</param>
internal sealed record PlanDraft(ImmutableArray<PlacedPiece> Pieces, ImmutableArray<int> Order, double[] Effort, bool Enough)
{
    /// <summary>A draft without any block.</summary>
    public static PlanDraft Empty(ImmutableArray<int> order, CandidateStanding standing, LocalDate examDay, ScoreModel model)
        => new([], order, EffortOf([], standing, examDay, model), false);

    /// <summary>Study minutes in all.</summary>
    public int Minutes => Pieces.Sum(p => p.Slot.Minutes);

    /// <summary>Minutes of one topic.</summary>
    public int MinutesOn(int topic) => Pieces.Where(p => p.Topic == topic).Sum(p => p.Slot.Minutes);

    /// <summary>Hours per topic that count on exam day on a topic of average size: what is retained of past study and of the blocks, times the topic's breadth factor.</summary>
    public static double[] EffortOf(IReadOnlyCollection<PlacedPiece> pieces, CandidateStanding standing, LocalDate examDay, ScoreModel model)
    {
        int day = StudyHistory.DayNumber(examDay);
        ILookup<int, StudyMoment> planned = pieces
            .OrderBy(p => p.Slot.Start)
            .ToLookup(p => p.Topic, p => new StudyMoment(StudyHistory.DayNumber(p.Slot.Date), p.Slot.Minutes / 60.0, p.Purpose.Kind()));
        return [.. model.BreadthFactors.Select((_, t) => EffortOf(t, planned[t], standing, day, model))];
    }

    /// <summary>The same of one topic.</summary>
    /// <param name="topic">Index of the topic.</param>
    /// <param name="planned">Planned study of it, earliest first.</param>
    /// <param name="standing">Tells past study.</param>
    /// <param name="examDay">Number of the exam's day.</param>
    /// <param name="model">Tells breadth factors and the law of retention.</param>
    public static double EffortOf(int topic, IEnumerable<StudyMoment> planned, CandidateStanding standing, int examDay, ScoreModel model)
        => model.BreadthFactors[topic] * model.Learning.Retained([.. standing.Study.Of(topic), .. planned], examDay);
}
