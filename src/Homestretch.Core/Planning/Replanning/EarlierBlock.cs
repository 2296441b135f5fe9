using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Planning.Replanning;

/// <summary>A block of an earlier plan.</summary>
/// <param name="Id">Its name: see <see cref="StudyBlock.Id"/>.</param>
/// <param name="Time">When it was to be.</param>
/// <param name="Topic">The topic's name exactly as in the blueprint.</param>
/// <param name="Purpose">What it was for.</param>
/// <param name="Fate">What has become of it.</param>
public sealed record EarlierBlock(string Id, Interval Time, string Topic, BlockPurpose Purpose, BlockFate Fate)
{
    /// <summary>Length in minutes of elapsed time.</summary>
    public int Minutes => (int)Time.Duration.TotalMinutes;

    /// <summary>The day on which it was done, where that is known.</summary>
    public LocalDate? DoneOn { get; init; }
}
