using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;

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
    public static PlanDraft Empty(ImmutableArray<int> order) => new([], order, new double[order.Length], false);

    /// <summary>Study minutes in all.</summary>
    public int Minutes => Pieces.Sum(p => p.Slot.Minutes);

    /// <summary>Minutes of one topic.</summary>
    public int MinutesOn(int topic) => Pieces.Where(p => p.Topic == topic).Sum(p => p.Slot.Minutes);

    /// <summary>Hours per topic that count on exam day on a topic of average size: what is retained of its blocks, times its breadth factor.</summary>
    public static double[] EffortOf(IReadOnlyCollection<PlacedPiece> pieces, LocalDate examDay, ScoreModel model)
    {
        double[] effort = new double[model.BreadthFactors.Count];
        foreach (IGrouping<int, PlacedPiece> topic in pieces.GroupBy(p => p.Topic))
        {
            StudyMoment[] study = [.. topic
                .OrderBy(p => p.Slot.Start)
                .Select(p => new StudyMoment(-Period.DaysBetween(p.Slot.Date, examDay), p.Slot.Minutes / 60.0, p.Purpose.Kind()))];
            effort[topic.Key] = model.Learning.Retained(study, 0) * model.BreadthFactors[topic.Key];
        }

        return effort;
    }
}
