namespace Homestretch.Core.Laboratory;

/// <summary>One test of one candidate.</summary>
/// <param name="Seed">The run's seed.</param>
/// <param name="Candidate">Running number of the candidate.</param>
/// <param name="Test">0 or below for the diagnostic, 1 and on for quizzes, <see cref="TestSource.ExamTest"/> for the exam.</param>
internal readonly record struct Sitting(long Seed, int Candidate, int Test)
{
    public bool IsExam => Test == TestSource.ExamTest;
}
