using System.Globalization;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says how hard a test's items are and how well they tell people apart.</summary>
internal static class ItemsProse
{
    public static void Write(IAnsiConsole console, string test, ItemCalibration calibration, IReadOnlyList<OutputFile> written)
    {
        int items = calibration.Items.Length;
        console.Sentence($"{test}, taken by {calibration.Persons} people: {items} of {Figures.Plural(items + calibration.LeftOut.Length, "item")} calibrated.");
        console.Sentence(calibration.Reason);
        foreach (string note in calibration.Notes)
        {
            console.Point(note);
        }

        foreach (LeftOutItem item in calibration.LeftOut)
        {
            console.Point($"Item {item.Item} is left out. {item.Reason}");
        }

        Models(console, calibration);
        Items(console, calibration);
        console.WriteLine();
        foreach (OutputFile file in written)
        {
            console.Sentence($"Written: {file.Path}");
        }

        console.Sentence(
            "Difficulty: the ability at which the item is halfway between guessing and certain, in logits; the people's mean is 0"
            + (calibration.Chosen.Model == ItemModel.Rasch ? $" and their spread {Number(calibration.Chosen.AbilitySd)}" : " and their spread 1")
            + ". Slope: how sharply it tells people apart there. Off by: standard error. Answers: whether they follow the curve; 'doubtful' happens by chance to one item in 20, 'stray' to one in 100. "
            + "docs/measurement.md has the formulas.");
    }

    private static void Models(IAnsiConsole console, ItemCalibration calibration)
    {
        console.Heading("Models");
        Table table = Tables.Table("Model", ">Parameters", ">Log-likelihood", ">AIC", ">BIC", "");
        foreach (ModelTrial trial in calibration.Trials)
        {
            string taken = trial.Model == calibration.Chosen.Model ? "taken" : "";
            table.Row(
                Words.Of(trial.Model),
                trial.Calibration is { } c ? Count(c.FreeParameters) : "-",
                trial.Calibration is { } l ? Tenth(l.LogLikelihood) : "-",
                trial.Calibration is { } a ? Tenth(a.Aic) : "-",
                trial.Calibration is { } b ? Tenth(b.Bic) : "-",
                trial.Refusal ?? taken);
        }

        console.Write(table);
    }

    private static void Items(IAnsiConsole console, ItemCalibration calibration)
    {
        console.Heading("Items");
        bool slopes = calibration.Chosen.Model != ItemModel.Rasch;
        bool guessing = calibration.Chosen.Model == ItemModel.ThreeParameter;
        string[] more = [.. slopes ? [">Slope", ">Off by"] : Array.Empty<string>(), .. guessing ? [">Guessing", ">Off by"] : Array.Empty<string>()];
        Table table = Tables.Table(["=Item", "Topic", ">People", ">Difficulty", ">Off by", .. more, "=Answers"]);
        foreach (CalibratedItem item in calibration.Items)
        {
            ItemCurve curve = item.Estimate.Curve;
            ItemCurveErrors errors = item.Estimate.Errors;
            string[] rest =
            [
                .. slopes ? [Number(curve.Discrimination), Number(errors.Discrimination)] : Array.Empty<string>(),
                .. guessing ? [Number(curve.Guessing), Number(errors.Guessing)] : Array.Empty<string>(),
            ];
            table.Row([item.Item.Label, item.Item.Topic, Count(item.Reached), Number(curve.Difficulty), Number(errors.Difficulty), .. rest, Verdict(item.Verdict)]);
        }

        console.Write(table);
    }

    private static string Verdict(CurveVerdict verdict) => verdict switch
    {
        CurveVerdict.Follows => "follow it",
        CurveVerdict.Doubtful => "doubtful",
        CurveVerdict.Strays => "stray",
        _ => "too few people",
    };

    private static string Number(double? number) => number is { } n ? n.ToString("0.00", CultureInfo.InvariantCulture) : "-";

    private static string Tenth(double number) => number.ToString("0.0", CultureInfo.InvariantCulture);

    private static string Count(int count) => count.ToString(CultureInfo.InvariantCulture);
}
