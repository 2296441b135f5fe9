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
        return [.. model.BreadthFactors.Select((breadth, t) => breadth * model.Learning.Retained([.. standing.Study.Of(t), .. planned[t]], day))];
    }
}
