using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Measurement.Equating;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.Documents;

/// <summary>What scores on one test are worth on another.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Sentence">The answer in one sentence.</param>
/// <param name="From">The test that is converted.</param>
/// <param name="To">The test it is converted to.</param>
/// <param name="People">People who took both.</param>
/// <param name="Correlation">Correlation of their two scores.</param>
/// <param name="Scores">Every score from 0 up.</param>
/// <param name="AgainstExam">How the first test compares with the exam, where the second is the exam; otherwise null.</param>
/// <param name="AgainstExamRefusal">Why there is no such comparison, a sentence; null where there is one.</param>
/// <param name="Notes">Who was left out, in sentences.</param>
public sealed record EquateDocument(
    string Exam,
    string Sentence,
    EquatedTestFields From,
    EquatedTestFields To,
    int People,
    double Correlation,
    ImmutableArray<EquatedScoreFields> Scores,
    FormFields? AgainstExam,
    string? AgainstExamRefusal,
    ImmutableArray<string> Notes)
{
    /// <summary>The document of two tests.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="from">Name of the test that is converted.</param>
    /// <param name="to">Name of the test it is converted to.</param>
    /// <param name="both">Who took both.</param>
    /// <exception cref="UnsuitableDataException">Too few people took both, or their scores hardly differ.</exception>
    public static EquateDocument Of(Exam exam, string from, string to, BothTests both)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(both);
        ScorePairs pairs = both.Scores();
        LinearEquating linear = new(pairs);
        EquipercentileEquating equipercentile = new(pairs);
        int middle = (int)Math.Round(linear.FirstMean, MidpointRounding.AwayFromZero);
        double worth = Math.Clamp(linear.Equivalent(middle).Value, 0, pairs.SecondItems);
        (FormFields? form, string? refusal) = Against(exam, both);
        return new(
            exam.Name,
            $"{middle} of {pairs.FirstItems} on {from} is worth about {Figures.Count(worth)} of {pairs.SecondItems} on {to}, by the results of {pairs.Pairs.Length} people who took both.",
            new(from, pairs.FirstItems, linear.FirstMean),
            new(to, pairs.SecondItems, linear.SecondMean),
            pairs.Pairs.Length,
            pairs.Correlation,
            [.. Enumerable.Range(0, pairs.FirstItems + 1).Select(s => new EquatedScoreFields(
                s,
                pairs.Pairs.Count(p => p.First == s),
                EquivalentFields.Of(linear.Equivalent(s)),
                EquivalentFields.Of(equipercentile.Equivalent(s))))],
            form,
            refusal,
            LeftOut(both));
    }

    /// <summary>Who took both and was left out, in sentences.</summary>
    public static ImmutableArray<string> LeftOut(BothTests both)
    {
        ArgumentNullException.ThrowIfNull(both);
        List<string> said = [];
        void Say(int people, string why)
        {
            if (people > 0)
            {
                said.Add($"{Figures.Plural(people, "person is", "people are")} left out: {why}.");
            }
        }

        Say(both.TooFarApart, $"more than {BothTests.UsualMostDays} days lie between the two tests, and study in between would count as a difference");
        Say(both.OnlyBands, "a report gives bands and not counts");
        Say(both.OtherLength, "their test had another number of items than most people's");
        return [.. said];
    }

    private static (FormFields? Form, string? Refusal) Against(Exam exam, BothTests both)
    {
        if (!both.People.All(p => p.Second.Kind == AttemptKind.Official))
        {
            return (null, "How a test compares with the exam can be told from official results only.");
        }

        FormEstimate estimate = FormEstimate.Of(exam, both, secondIsExam: true);
        if (estimate.Difference is not { Sd: { } sd } form)
        {
            return (null, estimate.Refusal);
        }

        double guess = exam.MeanGuessChance;
        double points = form.Points(guess);
        double pointsSd = form.PointsSd(guess)!.Value;
        if (Math.Abs(points) > FormDifference.MostPoints)
        {
            return (null, $"The test differs from the exam by {Number(Math.Abs(points))} points; more than {Number(FormDifference.MostPoints)} are no longer those of two tests of one blueprint.");
        }

        string size = Number(Math.Abs(points));
        string way = size == "0" ? "as the exam" : $"{size} points {(points > 0 ? "easier" : "harder")}";
        return (new($"{way} ± {Number(Math.Max(pointsSd, 0.001))}", points, pointsSd, form.Logits, sd), null);
    }

    private static string Number(double share) => Math.Round(100 * share, 1, MidpointRounding.AwayFromZero).ToString("0.#", CultureInfo.InvariantCulture);
}
