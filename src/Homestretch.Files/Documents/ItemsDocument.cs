using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Files.Documents;

/// <summary>The calibrated items of a test.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Attempt">The test's name as the evidence gives it.</param>
/// <param name="Candidates">People with at least one answer.</param>
/// <param name="Model">The model in use: <c>rasch</c>, <c>2pl</c> or <c>3pl</c>.</param>
/// <param name="Reason">Why this model, one or two sentences.</param>
/// <param name="AbilitySd">Spread of ability between the people, in logits; 1 by definition but for <c>rasch</c>.</param>
/// <param name="AbilitySdError">Its standard error; null where it is not estimated.</param>
/// <param name="Models">Every model tried.</param>
/// <param name="Items">Calibrated items, in the order of the test.</param>
/// <param name="LeftOut">Items without parameters.</param>
/// <param name="Notes">What else a reader should know, in sentences.</param>
public sealed record ItemsDocument(
    string Exam,
    string Attempt,
    int Candidates,
    string Model,
    string Reason,
    double AbilitySd,
    double? AbilitySdError,
    ImmutableArray<ModelTrialFields> Models,
    ImmutableArray<CalibratedItemFields> Items,
    ImmutableArray<LeftOutItemFields> LeftOut,
    ImmutableArray<string> Notes)
{
    /// <summary>The document of a calibration.</summary>
    public static ItemsDocument Of(Exam exam, string attempt, ItemCalibration calibration)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(calibration);
        return new(
            exam.Name,
            attempt,
            calibration.Persons,
            Words.Of(calibration.Chosen.Model),
            calibration.Reason,
            calibration.Chosen.AbilitySd,
            calibration.Chosen.AbilitySdError,
            [.. calibration.Trials.Select(t => new ModelTrialFields(
                Words.Of(t.Model), t.Calibration?.FreeParameters, t.Calibration?.LogLikelihood, t.Calibration?.Aic, t.Calibration?.Bic, t.Refusal))],
            [.. calibration.Items.Select(CalibratedItemFields.Of)],
            [.. calibration.LeftOut.Select(i => new LeftOutItemFields(i.Item, i.Reason))],
            calibration.Notes);
    }
}
