using System.Collections.Immutable;

using Homestretch.Core.Planning.Replanning;

using NodaTime;

namespace Homestretch.Web.Assuming;

/// <summary>What a plan goes on from, so that coach and candidate see the same blocks and few of them move.</summary>
/// <param name="Earlier">The plan that was kept last.</param>
/// <param name="Busy">When the person cannot study, the time of blocks included of which somebody said what became of them.</param>
public sealed record Onward(EarlierPlan Earlier, ImmutableArray<Interval> Busy);
