namespace Homestretch.Core.Deciding;

/// <summary>What one more test would change.</summary>
/// <param name="Test">The test.</param>
/// <param name="Without">Pass chance with the best plan without it.</param>
/// <param name="WithTest">Expected pass chance with it: the plan loses its minutes, then is made anew from its result.</param>
/// <param name="Information">What knowing the result is worth: the better plans' gain over keeping to one plan, in pass chance. Never below 0.</param>
/// <param name="Minutes">What its minutes would have added as study, in pass chance, less what answering items and going over them teaches.</param>
/// <param name="StandardError">Standard error of <paramref name="Information"/> from the number of results tried.</param>
/// <param name="Results">Results tried.</param>
/// <param name="Doubt">Standard deviation of the pass chance that the result would show: how far the forecast may move.</param>
/// <param name="Reason">What the figures say, in a sentence.</param>
public sealed record TestValue(
    ProposedTest Test, double Without, double WithTest, double Information, double Minutes, double StandardError, int Results, double Doubt, string Reason)
{
    /// <summary>Gain in pass chance in all; negative where the minutes are better spent on study.</summary>
    public double Net => WithTest - Without;
}
