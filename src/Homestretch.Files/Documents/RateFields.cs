using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Files.Documents;

/// <summary>How fast a person learns, in logits per first hour on an average topic.</summary>
/// <param name="PerHour">The median.</param>
/// <param name="Low">Lower end of the 90 % interval.</param>
/// <param name="High">Upper end.</param>
/// <param name="Assumed">What was taken as usual before the person's tests were seen.</param>
/// <param name="FirstHour">What a first hour at <paramref name="PerHour"/> adds to the chance of a correct answer on an average topic, from the middle of the scale.</param>
/// <param name="AssumedFirstHour">The same at <paramref name="Assumed"/>.</param>
/// <param name="Tests">Tests taken after study.</param>
/// <param name="Informed">Share of the doubt that they have removed, 0 to 1.</param>
/// <param name="CohortPeople">People from whom the usual rate was learned; null where it is assumed.</param>
public sealed record RateFields(
    double PerHour, double Low, double High, double Assumed, double FirstHour, double AssumedFirstHour, int Tests, double Informed, int? CohortPeople)
{
    internal static RateFields Of(RateStanding rate, LearningBasis basis, Exam exam) => new(
        rate.Median,
        rate.Low,
        rate.High,
        rate.AssumedMedian,
        RateStanding.FirstHour(exam, basis.Learning, rate.Median),
        RateStanding.FirstHour(exam, basis.Learning, rate.AssumedMedian),
        rate.Tests,
        rate.Informed,
        basis.Prior?.Persons);
}
