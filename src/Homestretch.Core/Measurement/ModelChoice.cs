using System.Globalization;

using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>Which of several models of the same answers to use.</summary>
/// <param name="Chosen">The model with the smallest BIC.</param>
/// <param name="ByAic">The model with the smallest AIC.</param>
/// <param name="Words">Why, for a reader who knows no statistics.</param>
public sealed record ModelChoice(MarginalCalibration Chosen, MarginalCalibration ByAic, string Words)
{
    // Raftery (1995): a BIC difference above 6 is strong evidence, below 2 hardly worth a mention.
    private const double Strong = 6;
    private const double Slight = 2;

    /// <summary>Compares calibrations of the same persons on the same items.</summary>
    /// <exception cref="ArgumentException">There is none, or they are not of the same persons and items.</exception>
    public static ModelChoice Among(IReadOnlyList<MarginalCalibration> calibrations)
    {
        ArgumentNullException.ThrowIfNull(calibrations);
        if (calibrations.Count == 0
            || calibrations.Any(c => c.Persons != calibrations[0].Persons || !c.Items.Select(i => i.Item).SequenceEqual(calibrations[0].Items.Select(i => i.Item))))
        {
            throw new ArgumentException("Only calibrations of the same persons on the same items compare.", nameof(calibrations));
        }

        MarginalCalibration[] byBic = [.. calibrations.OrderBy(c => c.Bic)];
        MarginalCalibration byAic = calibrations.MinBy(c => c.Aic)!;
        return new ModelChoice(byBic[0], byAic, Describe(byBic, byAic));
    }

    private static string Describe(MarginalCalibration[] byBic, MarginalCalibration byAic)
    {
        string name = MarginalEstimation.Name(byBic[0].Model);
        if (byBic.Length == 1)
        {
            return $"Only the {name} was fitted.";
        }

        double lead = byBic[1].Bic - byBic[0].Bic;
        string second = MarginalEstimation.Name(byBic[1].Model);
        string strength = lead >= Strong ? "clearly" : lead >= Slight ? "somewhat" : "hardly";
        string figures = string.Create(CultureInfo.InvariantCulture, $"BIC {byBic[0].Bic:F1} against {byBic[1].Bic:F1}");
        string verdict = lead >= Slight
            ? $"The {name} describes the answers {strength} better than the {second} for the parameters it uses ({figures})."
            : $"The {name} and the {second} describe the answers {strength} differently for the parameters they use ({figures}); the {name} is taken.";
        string aic = byAic.Model == byBic[0].Model
            ? " AIC agrees."
            : $" AIC, which asks less of further parameters, prefers the {MarginalEstimation.Name(byAic.Model)}.";
        return verdict + aic + Meaning(byBic[0].Model);
    }

    private static string Meaning(ItemModel model) => model switch
    {
        ItemModel.Rasch => " So the items separate persons about equally well, and the number of right answers says all.",
        ItemModel.TwoParameter => " So some items separate persons better than others, and count for more.",
        _ => " So guessing has to be allowed for.",
    };
}
