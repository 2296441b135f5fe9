namespace Homestretch.Core.Measurement;

/// <summary>How seriously one person took the test, judged by time.</summary>
/// <param name="Person">The person.</param>
/// <param name="Timed">Answers with a time on items with a threshold.</param>
/// <param name="Rapid">Those given faster than the item could be read.</param>
/// <param name="RapidRight">Correct ones among them: luck.</param>
/// <param name="Effort">Response-time effort: share of answers that were not rapid (Wise &amp; Kong 2005).</param>
/// <param name="Doubtful">Whether effort is below <see cref="RapidGuessing.EffortFrom"/>.</param>
public sealed record PersonEffort(string Person, int Timed, int Rapid, int RapidRight, Statistic Effort, bool Doubtful);
