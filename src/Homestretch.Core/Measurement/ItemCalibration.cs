using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>The items of one test, calibrated together on one ability.</summary>
/// <param name="Persons">People with at least one answer.</param>
/// <param name="Chosen">The model in use.</param>
/// <param name="Items">Its items, in the order of the test.</param>
/// <param name="LeftOut">Items without parameters, and why.</param>
/// <param name="Trials">Every model tried.</param>
/// <param name="Reason">Why this model, for a reader who knows no statistics.</param>
/// <param name="Notes">What else a reader should know, in sentences.</param>
public sealed record ItemCalibration(
    int Persons,
    MarginalCalibration Chosen,
    ImmutableArray<CalibratedItem> Items,
    ImmutableArray<LeftOutItem> LeftOut,
    ImmutableArray<ModelTrial> Trials,
    string Reason,
    ImmutableArray<string> Notes)
{
    /// <summary>Fewer people than this place an item no better than to a logit either way (Linacre 1994, from memory).</summary>
    public const int FewestPersons = 30;

    // Flatter than this an item tells nothing, and its difficulty may lie anywhere.
    private const double FlattestSlope = 0.1;

    // With fewer people S-X2 sees gross misfit only (common practice, no source).
    private const int FewForFit = 200;

    /// <summary>Calibrates the items.</summary>
    /// <param name="scores">Everyone's answers. An item left blank counts as wrong; one that a person did not get to says nothing of how hard it is, and counts as not given.</param>
    /// <param name="model">The model; null to try all and take the one with the smallest BIC.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="UnsuitableDataException">Too few people, or the answers carry none of the models; the message says what would help.</exception>
    public static ItemCalibration Of(ItemScores scores, ItemModel? model = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(scores);
        int persons = scores.Persons.Count(p => p.Answers.Any(a => a.Answered));
        if (persons < FewestPersons)
        {
            throw new UnsuitableDataException(
                $"Calibrating items takes answers of {FewestPersons} people to one test; {persons} took this one, so {FewestPersons - persons} are missing.");
        }

        ImmutableArray<LeftOutItem> miskeyed =
        [
            .. ItemAnalysis.Analyse(scores)
                .Where(i => i.Concerns.Contains(ItemConcern.ProbablyMiskeyed))
                .Select(i => new LeftOutItem(i.Item.Label, "Its key is probably wrong; mend the key and calibrate again.")),
        ];
        HashSet<string> skipped = [.. miskeyed.Select(i => i.Item)];
        TestItem[] items = [.. scores.Items.Where(i => !skipped.Contains(i.Label))];
        ResponseMatrix data = Matrix(scores, items);
        double guess = items.Average(i => i.GuessChance);
        if (model == ItemModel.ThreeParameter && guess == 0)
        {
            throw new UnsuitableDataException("The three-parameter model allows for guessing, and these items have no options to guess from; take the two-parameter model.");
        }

        MarginalOptions options = MarginalOptions.Default with { GuessingMean = guess };
        ImmutableArray<ModelTrial> trials = [.. ModelsFor(model, guess).Select(m => Try(data, m, options, cancellation))];
        MarginalCalibration[] fitted = [.. trials.Select(t => t.Calibration).OfType<MarginalCalibration>()];
        if (fitted.Length == 0)
        {
            throw new UnsuitableDataException(trials[0].Refusal!);
        }

        ModelChoice choice = ModelChoice.Among(fitted);
        return Report(persons, choice.Chosen, data, items, miskeyed, trials, model is null ? choice.Words : $"The {MarginalEstimation.Name(choice.Chosen.Model)} was asked for.");
    }

    /// <summary>The calibrated items as a bank.</summary>
    /// <param name="test">The test whose labels they are; null where a label means the same item in every test.</param>
    public ItemBank ToBank(string? test) => new([.. Items.Select(i => new BankItem(
        i.Item.Topic,
        i.Item.Label,
        Chosen.Model,
        i.Estimate.Curve,
        i.Estimate.Errors.Discrimination,
        i.Estimate.Errors.Difficulty,
        i.Estimate.Errors.Guessing,
        test))]);

    private static ItemModel[] ModelsFor(ItemModel? asked, double guess)
        => asked is { } one ? [one]
        : guess > 0 ? [ItemModel.Rasch, ItemModel.TwoParameter, ItemModel.ThreeParameter]
        : [ItemModel.Rasch, ItemModel.TwoParameter];

    private static ModelTrial Try(ResponseMatrix data, ItemModel model, MarginalOptions options, CancellationToken cancellation)
    {
        try
        {
            return new ModelTrial(model, MarginalEstimation.Fit(data, model, options, null, cancellation), null);
        }
        catch (UnsuitableDataException e)
        {
            return new ModelTrial(model, null, e.Message);
        }
    }

    private static ItemCalibration Report(
        int persons,
        MarginalCalibration chosen,
        ResponseMatrix data,
        TestItem[] items,
        ImmutableArray<LeftOutItem> miskeyed,
        ImmutableArray<ModelTrial> trials,
        string reason)
    {
        Dictionary<string, ItemFit> fits = ItemFitTest.SX2(chosen, data).ToDictionary(f => f.Item, StringComparer.Ordinal);
        Dictionary<string, RaschItemFit> residuals = chosen.Model == ItemModel.Rasch ? RaschFitTest.Fit(chosen.Items, data).ToDictionary(f => f.Item, StringComparer.Ordinal) : [];
        Dictionary<string, ItemEstimate> estimates = chosen.Items.ToDictionary(i => i.Item, StringComparer.Ordinal);
        Dictionary<string, int> column = data.Items.Select((label, j) => (label, j)).ToDictionary(StringComparer.Ordinal);
        ImmutableArray<CalibratedItem> calibrated =
        [
            .. items.Where(i => estimates.TryGetValue(i.Label, out ItemEstimate? e) && e.Curve.Discrimination >= FlattestSlope).Select(i => new CalibratedItem(
                i,
                Enumerable.Range(0, data.Persons).Count(p => data[p, column[i.Label]] != Answer.Missing),
                estimates[i.Label],
                fits.GetValueOrDefault(i.Label),
                residuals.GetValueOrDefault(i.Label))),
        ];
        if (calibrated.IsEmpty)
        {
            throw new UnsuitableDataException("No item tells more able people from less able ones, so there is nothing to keep.");
        }

        IEnumerable<LeftOutItem> flat = chosen.Items.Where(i => i.Curve.Discrimination < FlattestSlope).Select(i => new LeftOutItem(i.Item, string.Create(
            CultureInfo.InvariantCulture,
            $"Its slope is {i.Curve.Discrimination:0.00}: more able people do not get it right more often{(i.Curve.Discrimination < 0 ? "; check its key" : string.Empty)}.")));
        Dictionary<string, string> why = miskeyed.Concat(chosen.LeftOut).Concat(flat).ToDictionary(i => i.Item, i => i.Reason, StringComparer.Ordinal);
        return new ItemCalibration(
            persons,
            chosen,
            calibrated,
            [.. why.Select(w => new LeftOutItem(w.Key, w.Value))],
            trials,
            reason,
            persons < FewForFit ? [.. chosen.Notes, $"With {persons} people only gross departures from a curve show."] : chosen.Notes);
    }

    private static ResponseMatrix Matrix(ItemScores scores, TestItem[] items)
    {
        int[] columns = [.. items.Select(i => scores.Items.IndexOf(i))];
        Answer[] rows =
        [
            .. scores.Persons.SelectMany(p => columns.Select(c => p.Answers[c] switch
            {
                { Reached: false } => Answer.Missing,
                { Credit: 1 } => Answer.Right,
                _ => Answer.Wrong,
            })),
        ];
        return ResponseMatrix.Create([.. items.Select(i => i.Label)], rows);
    }
}
