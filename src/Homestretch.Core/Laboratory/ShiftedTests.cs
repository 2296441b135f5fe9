using Homestretch.Core.Standing;

namespace Homestretch.Core.Laboratory;

/// <summary>The planner's own view of tests: all items of a test on a topic are alike, and each test is a little easier or harder than the pool.</summary>
/// <remarks>P = c + (1 - c) / (1 + exp(-(theta + u + v))): u ~ Normal(0, <see cref="TopicSd"/>) for each test and topic, v ~ Normal(0, <see cref="ExamSd"/>) for the exam as a whole, 0 for other tests.</remarks>
public sealed record ShiftedTests : TestSource
{
    /// <summary>Spread between tests in the difficulty of one topic's items.</summary>
    public double TopicSd { get; init; } = StandingAssumptions.Default.TopicFormSd;

    /// <summary>Spread of the exam as a whole against the practice tests.</summary>
    public double ExamSd { get; init; } = StandingAssumptions.Default.FormSd;

    /// <summary>By how many logits diagnostic and quizzes are easier than the exam.</summary>
    public double EasierPractice { get; init; }

    internal override void Answer(ExamWorld world, Sitting sitting, ReadOnlySpan<double> abilities, ReadOnlySpan<int> items, Span<int> correct)
    {
        RandomSequence form = new(sitting.Seed, Draws.Form, sitting.Candidate, sitting.Test);
        double whole = ExamSd * form.Normal();
        double shift = sitting.IsExam ? whole : EasierPractice;
        for (int t = 0; t < items.Length; t++)
        {
            double chance = world.Curves[t].Chance(abilities[t] + shift + (TopicSd * form.Normal()));
            RandomSequence luck = Luck(sitting, t);
            int right = 0;
            for (int i = 0; i < items[t]; i++)
            {
                right += luck.Uniform() < chance ? 1 : 0;
            }

            correct[t] = right;
        }
    }
}
