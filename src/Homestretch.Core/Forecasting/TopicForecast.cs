using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Forecasting;

/// <summary>One topic's part in the forecast.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="ExpectedCorrect">Expected correct answers.</param>
/// <param name="NeededCorrect">Correct answers that would reach the cut score if every topic moved by the same hours of study;
/// sums to the cut score over the topics that share it.</param>
public sealed record TopicForecast(ExamTopic Topic, double ExpectedCorrect, int NeededCorrect);
