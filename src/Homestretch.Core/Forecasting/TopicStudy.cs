using Homestretch.Core.Blueprints;

using NodaTime;

namespace Homestretch.Core.Forecasting;

/// <summary>Study done on one topic and what it has brought so far.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Minutes">Minutes in all.</param>
/// <param name="Last">The day it was last studied.</param>
/// <param name="ScoreGain">What it adds to the expected correct answers if the exam were sat now.</param>
public sealed record TopicStudy(ExamTopic Topic, int Minutes, LocalDate Last, double ScoreGain);
