namespace Homestretch.Web.Api;

/// <summary>What an official report says of one topic.</summary>
/// <param name="Topic">Topic of the exam.</param>
/// <param name="Figure">Counts, a percentage or a band of percentages: <c>12 of 21</c>, <c>57 %</c> or <c>41-60 %</c>.</param>
public sealed record TopicResult(string Topic, string Figure);
