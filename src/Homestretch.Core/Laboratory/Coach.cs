using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
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
internal sealed class Coach(CandidateCourse course, LaboratoryPolicy policy, QuickStanding quick)
{
    // Weakest first goes on to the next topic after two hours.
    private const double WeakestRoundHours = 2;

    private readonly Setting setting = course.Setting;
    private readonly List<Attempt> attempts = [course.FirstEvidence];
    private readonly List<PlacedPiece> done = [];

    /// <summary>Pass chance under the last plan made.</summary>
    public double Forecast { get; private set; }

    /// <summary>Takes in a quiz.</summary>
    public void See(AttemptKind kind, LocalDate date, int[] items, int[] correct)
        => attempts.Add(new Attempt("", "quiz", kind, date, [.. items.Select((n, t) => (Observation)TopicCount.Exact(setting.World.Exam.Topics[t].Name, correct[t], n))]));

    /// <summary>Takes in a session that took place.</summary>
    public void Note(PlacedPiece piece) => done.Add(piece);

    /// <summary>Plans the rest of the time.</summary>
    /// <param name="from">First day to plan, counted from the start.</param>
    /// <param name="truth">True ability on each topic on that day; for the oracle only.</param>
    public ImmutableArray<PlacedPiece> Plan(int from, ReadOnlySpan<double> truth)
    {
        Exam exam = setting.World.Exam;
        LocalDate today = setting.From.PlusDays(from);
        CandidateStanding standing = policy == LaboratoryPolicy.Oracle
            ? quick.Known(truth, course.Person.Rate, History(), today)
            : quick.Standing(attempts, History(), today);
        if (policy == LaboratoryPolicy.ByHand)
        {
            standing = standing with { Topics = [.. standing.Topics.Select((topic, t) => topic with { Level = PlainLevel(t) })] };
        }

        ScoreModel model = new(standing, null, QuadratureDetail.Coarse);
        if (policy == LaboratoryPolicy.Nothing)
        {
            Forecast = model.PassChance(model.EffortNow);
            return [];
        }

        PlanDrafter drafter = new(standing, model, [.. setting.Slots.Where(s => s.Date >= today)], setting.ExamDay);
        PlanDraft draft = policy switch
        {
            LaboratoryPolicy.PracticeOrder or LaboratoryPolicy.ByHand => drafter.PracticeOrder(),
            LaboratoryPolicy.Optimised or LaboratoryPolicy.Oracle => drafter.Optimised(drafter.PracticeOrder(), CancellationToken.None),
            LaboratoryPolicy.EqualShares => Shared(drafter, standing, _ => 1),
            LaboratoryPolicy.ByWeight => Shared(drafter, standing, t => exam.Topics[t].Items),
            _ => Weakest(drafter, standing),
        };
        Forecast = model.PassChance(draft.Effort);
        return draft.Pieces;
    }

    /// <summary>Pass chance as the planner sees it on the day before the exam.</summary>
    public double ForecastOnEve()
    {
        ScoreModel model = new(quick.Standing(attempts, History(), setting.ExamDay), null, QuadratureDetail.Coarse);
        return model.PassChance(model.EffortNow);
    }

    private StudyHistory History()
        => done.Count == 0
            ? StudyHistory.None
            : new StudyHistory(setting.World.Exam, [.. done.Select(p => new StudySession("", setting.World.Exam.Topics[p.Topic].Name, p.Slot.Date, p.Slot.Minutes, p.Purpose.Kind()))]);

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
        return new Level(share, share, share, StandingCalculator.BandOf(share, setting.World.Exam.Bands), default);
    }

    // Time in proportion to a weight, what has been done counted in; spread evenly over the calendar.
    private PlanDraft Shared(PlanDrafter drafter, CandidateStanding standing, Func<int, double> weight)
    {
        int topics = standing.Topics.Length;
        int[] before = new int[topics];
        foreach (PlacedPiece piece in done)
        {
            before[piece.Topic]++;
        }

        double[] weights = [.. Enumerable.Range(0, topics).Select(weight)];
        int[] whole = Apportionment.LargestRemainder(weights, drafter.Pieces + done.Count);
        double[] left = [.. whole.Select((n, t) => (double)Math.Max(0, n - before[t]))];
        int[] counts = left.Sum() == 0 ? new int[topics] : Apportionment.LargestRemainder(left, drafter.Pieces);
        ImmutableArray<int> order = [.. Enumerable.Range(0, topics).OrderByDescending(weight).ThenBy(t => t)];
        return drafter.Draft(order, BlockPlacer.Interleave(order, counts), reviewAll: true, enough: false);
    }

    private static PlanDraft Weakest(PlanDrafter drafter, CandidateStanding standing)
    {
        ImmutableArray<int> order = [.. Enumerable.Range(0, standing.Topics.Length).OrderBy(t => standing.Topics[t].Level.Mean)];
        int round = Math.Max(1, (int)Math.Round(WeakestRoundHours / Math.Max(0.25, drafter.PieceHours)));
        ImmutableArray<int> sequence = [.. Enumerable.Range(0, drafter.Pieces).Select(i => order[i / round % order.Length])];
        return drafter.Draft(order, sequence, reviewAll: true, enough: false);
    }
}
