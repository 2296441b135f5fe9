using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>The log-normal response-time model of one test.</summary>
/// <param name="Items">In the order of the test.</param>
/// <param name="Persons">In the order of the evidence.</param>
/// <param name="SpeedSpread">Standard deviation of speed between people.</param>
/// <param name="LogLikelihood">Of the logarithms of seconds.</param>
/// <param name="Times">Times it rests on.</param>
public sealed record ResponseTimeFit(
    ImmutableArray<ItemTiming> Items,
    ImmutableArray<PersonSpeed> Persons,
    double SpeedSpread,
    double LogLikelihood,
    int Times);
