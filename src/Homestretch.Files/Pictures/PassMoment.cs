using NodaTime;

namespace Homestretch.Files.Pictures;

/// <summary>The pass chance at one time, and what had just happened.</summary>
/// <param name="At">When, in the person's zone.</param>
/// <param name="WithPlan">Pass chance with the plan made then, 0 to 1.</param>
/// <param name="WithoutStudy">Pass chance without more study from then on, 0 to 1.</param>
/// <param name="Event">What had just happened, in one sentence.</param>
public sealed record PassMoment(LocalDateTime At, double WithPlan, double WithoutStudy, string Event);
