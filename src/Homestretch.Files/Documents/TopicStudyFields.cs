namespace Homestretch.Files.Documents;

/// <summary>Study done on one topic.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Minutes">Minutes in all.</param>
/// <param name="Last">The day it was last studied, ISO 8601.</param>
/// <param name="ScoreGain">What it adds to the expected correct answers.</param>
public sealed record TopicStudyFields(string Topic, string Section, int Minutes, string Last, double ScoreGain);
