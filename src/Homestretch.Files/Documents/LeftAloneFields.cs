namespace Homestretch.Files.Documents;

/// <summary>A topic the plan gives no study time, and why.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Reason">One sentence.</param>
/// <param name="Change">What would bring it in, one sentence; null where that was not worked out.</param>
public sealed record LeftAloneFields(string Topic, string Section, string Reason, string? Change);
