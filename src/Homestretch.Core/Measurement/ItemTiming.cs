namespace Homestretch.Core.Measurement;

/// <summary>How long one item takes, under the log-normal model.</summary>
/// <param name="Item">The item.</param>
/// <param name="Times">Times it rests on.</param>
/// <param name="LogSeconds">Time intensity: mean of the logarithm of seconds for a person of average speed. Refused with too few times.</param>
/// <param name="Spread">Standard deviation of the logarithm around it; refused with too few times.</param>
public sealed record ItemTiming(TestItem Item, int Times, Statistic LogSeconds, Statistic Spread);
