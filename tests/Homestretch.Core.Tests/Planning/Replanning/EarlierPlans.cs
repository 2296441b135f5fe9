using System.Collections.Immutable;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Planning.Replanning;

/// <summary>Plans as later plans know them.</summary>
internal static class EarlierPlans
{
    public static EarlierPlan Of(StudyPlan plan, CandidateStanding standing) => new(
        plan.From,
        plan.ExamDay,
        plan.LightFrom,
        plan.CalendarDay,
        [
            .. plan.Blocks.Select(b => new EarlierBlock(b.Id, new Interval(b.Start.ToInstant(), b.End.ToInstant()), b.Topic.Name, b.Purpose, BlockFate.Planned)),
            .. plan.Revision?.Earlier ?? [],
        ],
        standing.Topics.ToImmutableDictionary(t => t.Topic.Name, t => t.Level.Mean));
}
