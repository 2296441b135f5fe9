using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Planning;

/// <summary>A plan's blocks as study of topics, to work out what they leave on exam day, and what other blocks would.</summary>
internal sealed class PlannedStudy
{
    private readonly int examDay;
    private readonly ILookup<int, int> own;

    public PlannedStudy(StudyPlan plan, CandidateStanding standing)
    {
        string[] names = [.. standing.Exam.Topics.Select(t => t.Name)];
        examDay = StudyHistory.DayNumber(plan.ExamDay);
        Topics = [.. plan.Blocks.Select(b => Array.IndexOf(names, b.Topic.Name))];
        Moments = [.. plan.Blocks.Select(b => new StudyMoment(StudyHistory.DayNumber(b.Start.Date), b.Minutes / 60.0, b.Purpose.Kind()))];
        own = Enumerable.Range(0, Topics.Length).ToLookup(b => Topics[b]);
    }

    /// <summary>Index of each block's topic, in time order.</summary>
    public ImmutableArray<int> Topics { get; }

    /// <summary>Each block as study.</summary>
    public ImmutableArray<StudyMoment> Moments { get; }

    /// <summary>Numbers of a topic's blocks.</summary>
    public IEnumerable<int> BlocksOf(int topic) => own[topic];

    /// <summary>What all blocks leave on exam day of every topic, past study included, as <see cref="ScoreModel.PassChance"/> takes it.</summary>
    public double[] Efforts(CandidateStanding standing, ScoreModel model)
        => [.. Enumerable.Range(0, standing.Topics.Length).Select(t => Effort(standing, model, t, own[t].Select(b => Moments[b])))];

    /// <summary>The same of one topic without one of its blocks.</summary>
    public double Without(CandidateStanding standing, ScoreModel model, int block)
        => Effort(standing, model, Topics[block], own[Topics[block]].Where(b => b != block).Select(b => Moments[b]));

    /// <summary>The same of one topic with the time of another topic's block.</summary>
    /// <remarks>A review stays a review. Other time is practice where the topic is studied anyway, and otherwise teaches.</remarks>
    public double With(CandidateStanding standing, ScoreModel model, int topic, int block)
    {
        StudyMoment moment = Moments[block];
        StudyKind kind = moment.Kind == StudyKind.Review ? StudyKind.Review : own.Contains(topic) ? StudyKind.PracticeItems : StudyKind.Teaching;
        return Effort(standing, model, topic, own[topic].Select(b => Moments[b]).Append(moment with { Kind = kind }).OrderBy(m => m.Day));
    }

    private double Effort(CandidateStanding standing, ScoreModel model, int topic, IEnumerable<StudyMoment> planned)
        => PlanDraft.EffortOf(topic, planned, standing, examDay, model);
}
