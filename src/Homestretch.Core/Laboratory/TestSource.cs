namespace Homestretch.Core.Laboratory;

/// <summary>Where the items of diagnostic, quizzes and exam come from, and how likely they are answered.</summary>
public abstract record TestSource
{
    /// <summary>Number of the exam among a candidate's tests; the diagnostic is 0 or below, quizzes follow from 1.</summary>
    internal const int ExamTest = 1000;

    /// <summary>Most topics in a simulated exam.</summary>
    internal const int MostTopics = 64;

    /// <summary>Answers one test.</summary>
    /// <param name="world">The exam.</param>
    /// <param name="sitting">Whose test and which.</param>
    /// <param name="abilities">Ability on each topic on the day.</param>
    /// <param name="items">Items on each topic.</param>
    /// <param name="correct">Receives the correct answers on each topic.</param>
    internal abstract void Answer(ExamWorld world, Sitting sitting, ReadOnlySpan<double> abilities, ReadOnlySpan<int> items, Span<int> correct);

    private protected static RandomSequence Luck(Sitting sitting, int topic) => new(sitting.Seed, Draws.Answers, sitting.Candidate, (sitting.Test * MostTopics) + topic);
}
