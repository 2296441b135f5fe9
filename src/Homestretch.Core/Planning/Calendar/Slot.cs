using NodaTime;

namespace Homestretch.Core.Planning.Calendar;

/// <summary>A piece of free time that one block can fill: 25 to 50 minutes, with a break before the next.</summary>
/// <param name="Start">Start.</param>
/// <param name="Minutes">Length in minutes of elapsed time.</param>
/// <param name="Date">The local day it belongs to.</param>
/// <param name="Window">Running number of the window it lies in; slots of one window share it.</param>
/// <param name="LightOnly">True in the last days before the exam, where only light review belongs.</param>
public readonly record struct Slot(Instant Start, int Minutes, LocalDate Date, int Window, bool LightOnly)
{
    /// <summary>End.</summary>
    public Instant End => Start + Duration.FromMinutes(Minutes);
}
