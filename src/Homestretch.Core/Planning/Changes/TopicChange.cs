namespace Homestretch.Core.Planning.Changes;

/// <summary>What would bring a topic into a plan or take time from it.</summary>
/// <param name="Quiz">The quiz result that would, nearest to the one to expect; null where none would.</param>
/// <param name="WeeklyMinutes">More minutes a week from which a topic left alone would come in, or fewer (below 0) with which a studied one would drop out; null where none of those tried would do.</param>
/// <param name="Sentence">The same in one sentence.</param>
public sealed record TopicChange(QuizThreshold? Quiz, int? WeeklyMinutes, string Sentence);
