namespace Homestretch.Files.Documents;

/// <summary>A topic the plan gives no study time, and why.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Section">Its section.</param>
/// <param name="Reason">One sentence.</param>
public sealed record LeftAloneFields(string Topic, string Section, string Reason);
