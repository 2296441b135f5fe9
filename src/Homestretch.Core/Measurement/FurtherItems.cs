using System.Collections.Immutable;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>The shortest set of further items that would settle the bands that matter for the plan.</summary>
/// <remarks>A band matters where study of the topic moves the pass chance: at least a quarter as much as the best topic does. For one
/// person the items of a topic are those that would, on average, settle its band; no smaller number does. For a room it is the number
/// that does so for half of those concerned.</remarks>
public static class FurtherItems
{
    /// <summary>A topic matters when half an hour on it gains at least this share of what the best topic gains.</summary>
    public const double MattersFrom = 0.25;

    /// <summary>Topics that need items, those that most people need first.</summary>
    /// <param name="room">People on the same exam; may be empty.</param>
    public static ImmutableArray<TopicFurtherItems> For(IReadOnlyList<CandidateGains> room)
    {
        ArgumentNullException.ThrowIfNull(room);
        if (room.Count == 0)
        {
            return [];
        }

        List<int?>[] needed = [.. room[0].Standing.Topics.Select(_ => new List<int?>())];
        foreach ((CandidateStanding standing, ImmutableArray<double> gains) in room)
        {
            double best = gains.Max();
            for (int t = 0; t < needed.Length; t++)
            {
                if (!standing.Topics[t].Level.Settled && best > 0 && gains[t] >= MattersFrom * best)
                {
                    needed[t].Add(standing.Topics[t].ItemsToSettle);
                }
            }
        }

        return
        [
            .. needed
                .Select((items, t) => (Topic: room[0].Standing.Topics[t].Topic, Items: items))
                .Where(n => n.Items.Count > 0)
                .OrderByDescending(n => n.Items.Count)
                .Select(n => new TopicFurtherItems(
                    n.Topic,
                    n.Items.Count,
                    n.Items.OrderBy(i => i ?? int.MaxValue).ElementAt((n.Items.Count - 1) / 2))),
        ];
    }
}
