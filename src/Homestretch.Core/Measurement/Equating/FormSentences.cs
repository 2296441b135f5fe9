using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement.Equating;

/// <summary>Says how tests compare with the exam.</summary>
public static class FormSentences
{
    /// <summary>One sentence per test whose difference was stated or learned.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="attempts">One person's attempts.</param>
    public static ImmutableArray<string> Of(Exam exam, IEnumerable<Attempt> attempts)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(attempts);
        double guess = exam.MeanGuessChance;
        return [.. attempts
            .Where(a => a.Form is not null)
            .DistinctBy(a => (a.Name.ToUpperInvariant(), a.Form))
            .Select(a => $"'{a.Name}' counts as {InPoints(a.Form!, guess)}{Why(a.Form!, guess)}")];
    }

    private static string InPoints(FormDifference form, double guess)
    {
        double points = 100 * form.Points(guess);
        string size = Number(Math.Abs(points));
        return size == "0" ? "no easier and no harder than the exam" : $"{size} {(size == "1" ? "point" : "points")} {(points > 0 ? "easier" : "harder")} than the exam";
    }

    private static string Why(FormDifference form, double guess)
    {
        string spread = form.PointsSd(guess) is { } sd ? $", give or take {Number(100 * sd)}" : ", with the usual doubt about a test";
        return form.People is { } people
            ? $"{spread}: learned from {people} people who took both."
            : $"{spread}: the evidence states it.";
    }

    private static string Number(double points) => Math.Round(points, 1, MidpointRounding.AwayFromZero).ToString("0.#", CultureInfo.InvariantCulture);
}
