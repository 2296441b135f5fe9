namespace Homestretch.Core.Calibration;

/// <summary>A person whose forecast cannot be compared with an outcome.</summary>
/// <param name="Candidate">The person.</param>
/// <param name="Reason">Why.</param>
/// <param name="Detail">What the reason is about, such as a topic's or a date; empty where there is nothing to add.</param>
public sealed record LeftOutPerson(string Candidate, LeftOutReason Reason, string Detail);
