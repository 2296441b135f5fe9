namespace Homestretch.Files.Documents;

/// <summary>A topic with a least number of minutes.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Minutes">The least number.</param>
public sealed record LeastFields(string Topic, int Minutes);
