using Homestretch.Core.Evidence;

namespace Homestretch.Core.Laboratory;

/// <summary>What one candidate has learned and forgotten so far.</summary>
internal abstract class Learner
{
    /// <summary>A session; sessions come in the order of time.</summary>
    /// <param name="day">Days since the plan began.</param>
    /// <param name="topic">Index of the topic.</param>
    /// <param name="hours">Hours, with fatigue taken off.</param>
    /// <param name="kind">How the session was studied.</param>
    public abstract void Study(int day, int topic, double hours, StudyKind kind);

    /// <summary>What is left on <paramref name="day"/> of all gains on a topic, in logits; sessions of the day itself count.</summary>
    public abstract double Gain(int topic, int day);
}
