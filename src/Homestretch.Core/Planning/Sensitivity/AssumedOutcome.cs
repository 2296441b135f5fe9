namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>What would hold were an assumption's value another.</summary>
/// <param name="Value">That value.</param>
/// <param name="Kept">Pass chance with the present plan, 0 to 1.</param>
/// <param name="Best">Pass chance with the plan that would be best then; never below <paramref name="Kept"/>.</param>
/// <param name="MovedMinutes">Minutes of the present plan that the best plan would spend on other topics or not at all.</param>
public readonly record struct AssumedOutcome(double Value, double Kept, double Best, int MovedMinutes)
{
    /// <summary>What keeping the present plan would cost, as a difference of chances.</summary>
    public double Regret => Best - Kept;
}
