using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Files.Documents;

/// <summary>A block on either side of a change.</summary>
/// <param name="Start">Start, ISO 8601 with offset.</param>
/// <param name="End">End.</param>
/// <param name="Topic">What it is about.</param>
/// <param name="Purpose"><c>learn</c>, <c>practise</c>, <c>quiz</c> or <c>review</c>.</param>
public sealed record PlacedFields(string Start, string End, string Topic, string Purpose)
{
    internal static PlacedFields Of(ZonedDateTime start, ZonedDateTime end, string topic, BlockPurpose purpose) => new(PlanDocument.Time(start), PlanDocument.Time(end), topic, Words.Of(purpose));
}
