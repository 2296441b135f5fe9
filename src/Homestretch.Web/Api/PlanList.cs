using System.Collections.Immutable;

namespace Homestretch.Web.Api;

/// <summary>The plans of a case.</summary>
/// <param name="Plans">Oldest first.</param>
public sealed record PlanList(ImmutableArray<PlanLine> Plans);
