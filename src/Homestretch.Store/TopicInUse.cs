namespace Homestretch.Store;

/// <summary>A topic that something in a case names.</summary>
/// <param name="CaseKey">The case.</param>
/// <param name="Candidate">The person.</param>
/// <param name="Topic">The topic as it was written.</param>
/// <param name="Subtopic">The subtopic as it was written; empty where none was.</param>
public sealed record TopicInUse(string CaseKey, string Candidate, string Topic, string Subtopic);
