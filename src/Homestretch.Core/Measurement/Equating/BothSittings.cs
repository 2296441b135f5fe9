using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>One person's sittings of two tests: where there are several, the two that lie closest together.</summary>
/// <param name="First">Of the test that is converted.</param>
/// <param name="FirstShare">Its correct answers.</param>
/// <param name="Second">Of the test it is converted to.</param>
/// <param name="SecondShare">Its correct answers.</param>
public sealed record BothSittings(Attempt First, ObservedShare FirstShare, Attempt Second, ObservedShare SecondShare)
{
    /// <summary>Days between the two, zero or more.</summary>
    public int DaysApart => Math.Abs(Period.DaysBetween(First.Date, Second.Date));
}
