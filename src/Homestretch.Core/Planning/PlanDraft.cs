using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
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

    /// <summary>Hours that count on exam day: each block's length, less for a review, times what is retained from its day to the exam's.</summary>
    public static double[] EffortOf(IReadOnlyCollection<PlacedPiece> pieces, LocalDate examDay, ScoreModel model)
    {
        double[] effort = new double[model.BreadthFactors.Count];
        foreach (IGrouping<int, PlacedPiece> topic in pieces.GroupBy(p => p.Topic))
        {
            int days = topic.Select(p => p.Slot.Date).Distinct().Count();
            double hours = 0;
            foreach (PlacedPiece piece in topic)
            {
                double share = piece.Purpose == BlockPurpose.Review ? model.Learning.ReviewShare : 1;
                int age = Period.DaysBetween(piece.Slot.Date, examDay);
                hours += share * piece.Slot.Minutes / 60.0 * model.Learning.Retention(age, days);
            }

            effort[topic.Key] = hours * model.BreadthFactors[topic.Key];
        }

        return effort;
    }
}
