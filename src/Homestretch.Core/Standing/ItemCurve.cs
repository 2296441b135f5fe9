namespace Homestretch.Core.Standing;

/// <summary>How the chance of a correct answer to one item rises with ability: c + (1 - c) / (1 + exp(-a (ability - b))).</summary>
/// <param name="Discrimination">a, the slope; any finite number but zero in a calibrated item, and below zero only where the key is wrong.</param>
/// <param name="Difficulty">b, the ability at which the chance is halfway between c and 1, in logits.</param>
/// <param name="Guessing">c, the chance that somebody who knows nothing gets it right; 0 up to but not including 1.</param>
public readonly record struct ItemCurve(double Discrimination, double Difficulty, double Guessing)
{
    /// <summary>Chance of a correct answer at an ability.</summary>
    public double Chance(double ability) => Guessing + ((1 - Guessing) / (1 + Math.Exp(-Discrimination * (ability - Difficulty))));

    /// <summary>Fisher's information on ability that one answer carries, at an ability.</summary>
    public double Information(double ability)
    {
        double logistic = 1 / (1 + Math.Exp(-Discrimination * (ability - Difficulty)));
        double chance = Guessing + ((1 - Guessing) * logistic);
        return chance == 0 ? 0 : (1 - Guessing) * Discrimination * Discrimination * logistic * logistic * (1 - logistic) / chance;
    }

    /// <summary>Logarithm of the chance of a correct answer; finite wherever that chance is not exactly 0.</summary>
    public double LogRight(double ability)
    {
        double logit = Discrimination * (ability - Difficulty);
        double log = Math.Min(logit, 0) - Tail(logit);
        return Guessing == 0 ? log : Math.Log(Guessing + ((1 - Guessing) * Math.Exp(log)));
    }

    /// <summary>Logarithm of the chance of a wrong answer.</summary>
    public double LogWrong(double ability)
    {
        double logit = Discrimination * (ability - Difficulty);
        return Math.Log(1 - Guessing) + Math.Min(-logit, 0) - Tail(logit);
    }

    // log(1 + exp(-|x|)): serves both tails without overflow.
    private static double Tail(double logit) => Math.Log(1 + Math.Exp(-Math.Abs(logit)));
}
