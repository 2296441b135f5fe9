using NodaTime;

namespace Homestretch.Store;

/// <summary>When a plan was made, why, and what it promised.</summary>
/// <param name="Id">The plan's number.</param>
/// <param name="At">When it was made.</param>
/// <param name="Why">Why, in one sentence for the candidate.</param>
/// <param name="WithPlan">The pass chance with the plan, 0 to 1; null where its document cannot be read.</param>
/// <param name="WithoutStudy">The pass chance without more study, 0 to 1; null where its document cannot be read.</param>
public sealed record PlanMoment(long Id, Instant At, string Why, double? WithPlan, double? WithoutStudy);
