namespace Homestretch.Files.Documents;

/// <summary>What a cohort showed on one topic, in logits.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Items">Items of the cohort's test on it.</param>
/// <param name="Mean">Mean ability, on the scale of those items.</param>
/// <param name="StandardError">Its standard error; null where the results do not give one.</param>
/// <param name="ExamShift">How much easier (above 0) the exam's items on the topic are expected to be than those.</param>
public sealed record TopicMeanFields(string Topic, int Items, double Mean, double? StandardError, double ExamShift);
