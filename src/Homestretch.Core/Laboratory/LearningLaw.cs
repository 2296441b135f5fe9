namespace Homestretch.Core.Laboratory;

/// <summary>How simulated candidates learn and forget.</summary>
public abstract record LearningLaw
{
    /// <summary>A candidate before the first session.</summary>
    internal abstract Learner Start(Person person, ExamWorld world);
}
