using Homestretch.Core.Blueprints;

using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>A planned piece of free time.</summary>
/// <param name="Id">Stable name: topic and running number, so that a changed plan moves an event rather than doubling it.</param>
/// <param name="Start">Start, in the person's zone.</param>
/// <param name="End">End, 25 to 50 minutes of elapsed time later.</param>
/// <param name="Topic">What it is about.</param>
/// <param name="Purpose">What it is for.</param>
/// <param name="Reason">Why it is here, in one sentence a candidate understands.</param>
public sealed record StudyBlock(string Id, ZonedDateTime Start, ZonedDateTime End, ExamTopic Topic, BlockPurpose Purpose, string Reason)
{
    /// <summary>Length in minutes of elapsed time.</summary>
    public int Minutes => (int)(End.ToInstant() - Start.ToInstant()).TotalMinutes;
}
