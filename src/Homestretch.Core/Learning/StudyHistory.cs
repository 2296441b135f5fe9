using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Learning;

/// <summary>The study one person has done for one exam, and what is left of it on any day.</summary>
public sealed class StudyHistory
{
    private static readonly LocalDate _dayZero = new(2000, 1, 1);

    private readonly StudyMoment[][] moments;
    private readonly double[] breadth;

    /// <param name="exam">The exam.</param>
    /// <param name="sessions">That person's sessions, in any order; every topic is in the exam.</param>
    /// <param name="learning">What is assumed about learning; the documented defaults when null.</param>
    /// <exception cref="ArgumentException">A session names a topic that the exam does not have, or lasts less than a minute.</exception>
    public StudyHistory(Exam exam, ImmutableArray<StudySession> sessions, LearningAssumptions? learning = null)
    {
        ArgumentNullException.ThrowIfNull(exam);
        Learning = learning ?? LearningAssumptions.Default;
        Sessions = sessions;
        breadth = Learning.BreadthFactors(exam);
        ILookup<string, StudySession> byTopic = sessions.ToLookup(s => s.Topic, StringComparer.Ordinal);
        foreach (IGrouping<string, StudySession> topic in byTopic)
        {
            if (exam.Topics.All(t => t.Name != topic.Key))
            {
                throw new ArgumentException($"The exam has no topic '{topic.Key}'.", nameof(sessions));
            }

            if (topic.Any(s => s.Minutes < 1))
            {
                throw new ArgumentException($"A session on '{topic.Key}' lasts less than a minute.", nameof(sessions));
            }
        }

        moments = [.. exam.Topics.Select(t => byTopic[t.Name]
            .OrderBy(s => s.Date)
            .Select(s => new StudyMoment(DayNumber(s.Date), s.Minutes / 60.0, s.Kind))
            .ToArray())];
    }

    /// <summary>No study at all, of any exam.</summary>
    public static StudyHistory None { get; } = new();

    private StudyHistory()
    {
        Learning = LearningAssumptions.Default;
        Sessions = [];
        moments = [];
        breadth = [];
    }

    /// <summary>What is assumed about learning.</summary>
    public LearningAssumptions Learning { get; }

    /// <summary>The sessions, in the order given.</summary>
    public ImmutableArray<StudySession> Sessions { get; }

    /// <summary>Whether there was no study.</summary>
    public bool IsEmpty => Sessions.IsEmpty;

    /// <summary>The number of a day in <see cref="StudyMoment.Day"/>.</summary>
    public static int DayNumber(LocalDate date) => Period.DaysBetween(_dayZero, date);

    /// <summary>Study of one topic, earliest first.</summary>
    public ReadOnlySpan<StudyMoment> Of(int topic) => IsEmpty ? [] : moments[topic];

    /// <summary>Hours on a topic that are left on <paramref name="day"/>, as fresh hours on a topic of average size; study on the day counts.</summary>
    public double Effort(int topic, LocalDate day) => Effort(topic, DayNumber(day));

    /// <summary>Gain in ability on a topic that is left on <paramref name="day"/>, as a multiple of the person's rate per hour.</summary>
    /// <param name="topic">Index of the topic.</param>
    /// <param name="day">The day.</param>
    /// <param name="withDay">Whether study on the day itself counts.</param>
    public double Gain(int topic, LocalDate day, bool withDay = true) => Learning.Effective(Effort(topic, DayNumber(day) - (withDay ? 0 : 1)));

    /// <summary>This history without what came after <paramref name="day"/>.</summary>
    public StudyHistory Until(Exam exam, LocalDate day)
        => Sessions.All(s => s.Date <= day) ? this : new StudyHistory(exam, [.. Sessions.Where(s => s.Date <= day)], Learning);

    /// <summary>This history with other assumptions on learning.</summary>
    public StudyHistory With(Exam exam, LearningAssumptions learning) => new(exam, Sessions, learning);

    private double Effort(int topic, int day) => IsEmpty ? 0 : breadth[topic] * Learning.Retained(moments[topic], day);
}
