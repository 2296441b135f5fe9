using System.Collections.Immutable;

namespace Homestretch.Files.Documents;

/// <summary>A planned piece of free time.</summary>
/// <param name="Id">Stable name: topic and running number.</param>
/// <param name="Start">Start, ISO 8601 with offset.</param>
/// <param name="End">End, ISO 8601 with offset.</param>
/// <param name="Minutes">Elapsed minutes.</param>
/// <param name="Topic">What it is about.</param>
/// <param name="Section">The topic's section.</param>
/// <param name="Purpose"><c>learn</c>, <c>practise</c>, <c>quiz</c> or <c>review</c>.</param>
/// <param name="Reason">Why it is here, in one sentence.</param>
/// <param name="Change">What would change it: what it is worth against the next best use of its time, and which quiz result would move it; null where that was not worked out.</param>
/// <param name="Material">The parts of resources that belong to it; null where no catalogue was given.</param>
public sealed record BlockFields(string Id, string Start, string End, int Minutes, string Topic, string Section, string Purpose, string Reason, string? Change, ImmutableArray<MaterialFields>? Material);
