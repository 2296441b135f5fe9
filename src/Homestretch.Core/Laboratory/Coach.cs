using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>Makes one candidate's plans under one policy, from what a coach can see. The oracle alone is told the truth.</summary>
/// <param name="course">The candidate.</param>
/// <param name="policy">The policy.</param>
/// <param name="quick">The thread's own.</param>
/// <param name="planner">The thread's own, for the candidate's exam.</param>
internal sealed class Coach(CandidateCourse course, LaboratoryPolicy policy, QuickStanding quick, QuickPlanner planner)
{
    // Weakest first goes on to the next topic after two hours.
    private const double WeakestRoundHours = 2;

    private readonly Exam exam = course.Setting.World.Exam;
    private readonly StudyTime time = course.Setting.Time;
    private readonly List<Attempt> attempts = [course.FirstEvidence];
    private readonly List<StudySession> done = [];
    private readonly int[] sessionsOn = new int[course.Setting.World.Exam.Topics.Length];
    private readonly StudyKind[] kinds = new StudyKind[course.Setting.Time.Slots.Length];
    private int[] plan = [];

    /// <summary>Pass chance under the last plan made.</summary>
    public double Forecast { get; private set; }

    /// <summary>Topic of each slot from the last plan's first on, or <see cref="BlockPlacer.Unused"/>.</summary>
    public ReadOnlySpan<int> Topics => plan;

    /// <summary>How each of these slots is studied.</summary>
    public ReadOnlySpan<StudyKind> Kinds => kinds;

    /// <summary>Takes in a quiz.</summary>
    public void See(LocalDate date, int[] items, int[] correct)
        => attempts.Add(new Attempt("", "quiz", AttemptKind.Quiz, date, [.. items.Select((n, t) => (Observation)TopicCount.Exact(exam.Topics[t].Name, correct[t], n))]));

    /// <summary>Takes in a session that took place.</summary>
    public void Note(Slot slot, int topic, StudyKind kind)
    {
        done.Add(new StudySession("", exam.Topics[topic].Name, slot.Date, slot.Minutes, kind));
        sessionsOn[topic]++;
    }

    /// <summary>Plans the rest of the time.</summary>
    /// <param name="phase">The phase that begins.</param>
    /// <param name="truth">True ability on each topic on that day; for the oracle only.</param>
    public void Plan(int phase, ReadOnlySpan<double> truth)
    {
        LocalDate today = time.From.PlusDays(time.PhaseStarts[phase]);
        CandidateStanding standing = policy == LaboratoryPolicy.Oracle
            ? quick.Known(truth, course.Person.Rate, History(), today)
            : quick.Standing(attempts, History(), today);
        if (policy == LaboratoryPolicy.Nothing)
        {
            Forecast = planner.PassChanceNow(standing);
            return;
        }

        if (policy == LaboratoryPolicy.ByHand)
        {
            standing = standing with { Topics = [.. standing.Topics.Select((topic, t) => topic with { Level = PlainLevel(t) })] };
        }

        planner.Load(standing, time.Calendars[phase]);
        plan = policy switch
        {
            LaboratoryPolicy.PracticeOrder or LaboratoryPolicy.ByHand => planner.PracticeOrder(),
            LaboratoryPolicy.Optimised or LaboratoryPolicy.Oracle => planner.Optimised(),
            LaboratoryPolicy.EqualShares => Shared(_ => 1),
            LaboratoryPolicy.ByWeight => Shared(t => exam.Topics[t].Items),
            _ => Weakest(standing),
        };
        planner.FillKinds(plan, kinds);
        if (phase == 0)
        {
            Forecast = planner.PassChance(plan);
        }
    }

    /// <summary>Pass chance as the planner sees it on the day before the exam.</summary>
    public double ForecastOnEve() => planner.PassChanceNow(quick.Standing(attempts, History(), time.ExamDay));

    private StudyHistory History() => done.Count == 0 ? StudyHistory.None : new StudyHistory(exam, [.. done]);

    // What a coach reads off the tests: correct answers of items, the middle of a band where only that is reported.
    private Level PlainLevel(int topic)
    {
        double correct = 0;
        double items = 0;
        foreach (Attempt attempt in attempts)
        {
            TopicCount count = (TopicCount)attempt.Observations[topic];
            correct += (count.LowCorrect + count.HighCorrect) / 2.0;
            items += count.Items;
        }

        double share = correct / items;
        return new Level(share, share, share, StandingCalculator.BandOf(share, exam.Bands), default);
    }

    // Time in proportion to a weight, what has been done counted in; spread evenly over the calendar.
    private int[] Shared(Func<int, double> weight)
    {
        int topics = exam.Topics.Length;
        double[] weights = [.. Enumerable.Range(0, topics).Select(weight)];
        int[] whole = Apportionment.LargestRemainder(weights, planner.Pieces + done.Count);
        double[] left = [.. whole.Select((n, t) => (double)Math.Max(0, n - sessionsOn[t]))];
        int[] counts = left.Sum() == 0 ? new int[topics] : Apportionment.LargestRemainder(left, planner.Pieces);
        ImmutableArray<int> order = [.. Enumerable.Range(0, topics).OrderByDescending(weight).ThenBy(t => t)];
        return planner.Assign(order, BlockPlacer.Interleave(order, counts), reviewAll: true);
    }

    private int[] Weakest(CandidateStanding standing)
    {
        ImmutableArray<int> order = [.. Enumerable.Range(0, standing.Topics.Length).OrderBy(t => standing.Topics[t].Level.Mean)];
        int round = Math.Max(1, (int)Math.Round(WeakestRoundHours / Math.Max(0.25, planner.PieceHours)));
        ImmutableArray<int> sequence = [.. Enumerable.Range(0, planner.Pieces).Select(i => order[i / round % order.Length])];
        return planner.Assign(order, sequence, reviewAll: true);
    }
}
