namespace Homestretch.Core.Standing;

/// <summary>Ability to chance of a correct answer: P = c + (1 - c) / (1 + exp(-(theta + shift))), with c the chance of guessing right.</summary>
/// <param name="Guess">c, 0 up to but not including 1.</param>
/// <param name="Shift">How much easier this topic is than the person's overall ability says, in logits; 0 unless a cohort has shown it.</param>
public readonly record struct ResponseCurve(double Guess, double Shift = 0)
{
    /// <summary>Chance of a correct answer at ability <paramref name="theta"/> (logits).</summary>
    public double Chance(double theta) => Guess + ((1 - Guess) / (1 + Math.Exp(-(theta + Shift))));

    /// <summary>Ability at which the chance is <paramref name="chance"/>; minus infinity at or below the guessing chance.</summary>
    public double Ability(double chance)
    {
        double share = (chance - Guess) / (1 - Guess);
        return share <= 0 ? double.NegativeInfinity : share >= 1 ? double.PositiveInfinity : Math.Log(share / (1 - share)) - Shift;
    }
}
