using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Planning;

/// <summary>Minutes a plan gives a topic, and why.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Minutes">Study minutes in all its blocks, reviews included.</param>
/// <param name="Order">Place in the order of study, from 1.</param>
/// <param name="ScoreGain">What these minutes add to the expected correct answers on the topic by exam day.</param>
/// <param name="Reason">One sentence a candidate understands.</param>
public sealed record TopicMinutes(ExamTopic Topic, int Minutes, int Order, double ScoreGain, string Reason);
