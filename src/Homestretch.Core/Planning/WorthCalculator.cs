using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning;

/// <summary>What the next minutes of study are worth on each topic.</summary>
public static class WorthCalculator
{
    /// <summary>Gains of <paramref name="minutes"/> more study on each topic alone, as if the exam followed at once (nothing forgotten yet).</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="minutes">Minutes of study, one or more.</param>
    /// <param name="learning">Assumptions on learning; the documented defaults when null.</param>
    /// <returns>One entry per topic, in the order of the exam.</returns>
    public static ImmutableArray<TopicWorth> NextMinutes(CandidateStanding standing, int minutes = 30, LearningAssumptions? learning = null)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(minutes);
        ScoreModel model = new(standing, learning);
        int count = standing.Exam.Topics.Length;
        double[] piece = [.. model.BreadthFactors.Select(b => b * minutes / 60.0)];
        EffortChange[] gains = new EffortChange[count];
        model.Marginal(model.EffortNow, piece, gains, new EffortChange[count]);
        return [.. standing.Exam.Topics.Select((topic, t) => new TopicWorth(topic, minutes, gains[t].Score, gains[t].Pass))];
    }
}
