namespace Homestretch.Core.Measurement;

/// <summary>One calibrated item and how well its answers follow its curve.</summary>
/// <param name="Item">The item.</param>
/// <param name="Reached">People who reached it.</param>
/// <param name="Estimate">Its parameters with standard errors.</param>
/// <param name="Fit">S-X², where anyone answered every item.</param>
/// <param name="Residuals">Infit and outfit; Rasch items only.</param>
public sealed record CalibratedItem(TestItem Item, int Reached, ItemEstimate Estimate, ItemFit? Fit, RaschItemFit? Residuals)
{
    private const double Stray = 0.01;
    private const double Doubt = 0.05;

    /// <summary>The verdict of S-X².</summary>
    public CurveVerdict Verdict => Fit?.Probability switch
    {
        null => CurveVerdict.Unknown,
        < Stray => CurveVerdict.Strays,
        < Doubt => CurveVerdict.Doubtful,
        _ => CurveVerdict.Follows,
    };
}
