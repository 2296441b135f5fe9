namespace Homestretch.Web.Api;

/// <summary>A plan as it was kept at one time.</summary>
/// <param name="Id">Its number.</param>
/// <param name="At">When it was made, ISO 8601 in UTC.</param>
/// <param name="Why">Why, in one sentence.</param>
/// <param name="ExamDay">The exam day it was for, ISO 8601.</param>
/// <param name="Blocks">Blocks in it.</param>
/// <param name="PassChance">Pass chance with it, 0 to 1.</param>
/// <param name="WithoutStudy">Pass chance without more study from then on, 0 to 1.</param>
public sealed record PlanLine(long Id, string At, string Why, string ExamDay, int Blocks, double PassChance, double WithoutStudy);
