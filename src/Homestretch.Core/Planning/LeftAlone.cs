using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Planning;

/// <summary>A topic the plan gives no study time, and why.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Reason">One sentence a candidate understands.</param>
public sealed record LeftAlone(ExamTopic Topic, string Reason);
