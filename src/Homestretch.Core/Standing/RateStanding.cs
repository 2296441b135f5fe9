using Homestretch.Core.Blueprints;
using Homestretch.Core.Learning;

namespace Homestretch.Core.Standing;

/// <summary>How fast a person learns, from tests taken after study.</summary>
/// <param name="Median">Median gain per first hour on an average topic, in logits.</param>
/// <param name="Low">5 % quantile.</param>
/// <param name="High">95 % quantile.</param>
/// <param name="AssumedMedian">What was assumed before the tests.</param>
/// <param name="Informed">Share of the doubt (variance of the logarithm) that the tests have taken away, 0 to 1.</param>
public sealed record RateStanding(double Median, double Low, double High, double AssumedMedian, double Informed)
{
    /// <summary>Tests with items on a topic that had been studied before.</summary>
    public int Tests { get; init; }

    /// <summary>What a first hour of study adds, at a rate, to the chance of a correct answer on an average topic of somebody in the middle of the scale.</summary>
    /// <param name="exam">Its items decide how much of a correct answer is guessing.</param>
    /// <param name="learning">The assumptions on learning.</param>
    /// <param name="rate">The rate, in logits per first hour on an average topic.</param>
    public static double FirstHour(Exam exam, LearningAssumptions learning, double rate)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(learning);
        double lift = rate * learning.Effective(1);
        return exam.Sections.Sum(s => s.ScoredItems * (new ResponseCurve(s.GuessChance, 0).Chance(lift) - new ResponseCurve(s.GuessChance, 0).Chance(0))) / exam.ScoredItems;
    }
}
