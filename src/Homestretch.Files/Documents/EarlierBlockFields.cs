using Homestretch.Core.Planning.Replanning;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>A block of an earlier plan that is not in this one.</summary>
/// <param name="Id">Its name.</param>
/// <param name="Start">When it was to start, ISO 8601 with offset.</param>
/// <param name="End">When it was to end.</param>
/// <param name="Topic">What it was about.</param>
/// <param name="Purpose"><c>learn</c>, <c>practise</c>, <c>quiz</c> or <c>review</c>.</param>
/// <param name="Fate"><c>done</c>, <c>missed</c> or <c>dropped</c>.</param>
/// <param name="DoneOn">The day on which it was done, ISO 8601; null where it was not.</param>
public sealed record EarlierBlockFields(string Id, string Start, string End, string Topic, string Purpose, string Fate, string? DoneOn)
{
    internal static EarlierBlockFields Of(EarlierBlock block, DateTimeZone zone) => new(
        block.Id,
        PlanDocument.Time(block.Time.Start.InZone(zone)),
        PlanDocument.Time(block.Time.End.InZone(zone)),
        block.Topic,
        Words.Of(block.Purpose),
        Words.Of(block.Fate),
        block.DoneOn is { } day ? LocalDatePattern.Iso.Format(day) : null);
}
