using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning.Changes;

/// <summary>Finds what would change a plan, by computing the figures as they would be then.</summary>
/// <remarks>A block: the pass chance without it, and with its time on each other topic. A quiz: the standing is made anew for each result of ten items, the nearest to the expected one first, until the pass chance
/// gains by giving the time of one block to another topic; that it would bring in a topic left alone is checked by planning anew. Hours: plans for more and for fewer hours a week, until a topic comes in or drops out.</remarks>
public sealed class ChangeFinder
{
    // Two uses of a block's time nearer than this are as good as each other: a hundredth of a point.
    private const double AsGood = 1e-4;

    private const int MinutesInHour = 60;

    private static readonly int[] _moreHours = [1, 2, 4, 6];
    private static readonly int[] _fewerHours = [2, 4];

    private readonly CandidateStanding standing;
    private readonly ImmutableArray<Attempt> attempts;
    private readonly ItemBank? bank;
    private readonly StudyPlan plan;
    private readonly Func<CandidateStanding, PlanDraft> replan;
    private readonly PlannedStudy study;
    private readonly LearningAssumptions learning;
    private readonly double[] effortNow;
    private readonly double[] efforts;
    private readonly double[] without;
    private readonly double[][] with;

    private ChangeFinder(CandidateStanding standing, ImmutableArray<Attempt> attempts, ItemBank? bank, StudyPlan plan, Func<CandidateStanding, PlanDraft> replan)
    {
        this.standing = standing;
        this.attempts = attempts;
        this.bank = bank;
        this.plan = plan;
        this.replan = replan;
        study = new(plan, standing);
        ScoreModel model = Coarse(standing);
        learning = model.Learning;
        effortNow = model.EffortNow;
        efforts = study.Efforts(standing, model);
        without = [.. plan.Blocks.Select((_, b) => study.Without(standing, model, b))];
        with = [.. plan.Blocks.Select((_, b) => Enumerable.Range(0, efforts.Length).Select(t => study.With(standing, model, t, b)).ToArray())];
    }

    /// <summary>What would change a plan.</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="attempts">What it rests on.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When not.</param>
    /// <param name="bank">Calibrated items the standing was computed with, or null.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>Cost: six plans, a plan or two for each topic left alone, and up to ten posteriors a topic, on all processors.</remarks>
    public static PlanChanges Find(
        CandidateStanding standing,
        ImmutableArray<Attempt> attempts,
        StudyPlan plan,
        FreeTime free,
        IReadOnlyList<Interval> busy,
        ItemBank? bank = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(standing);
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(free);
        PlanDraft Made(CandidateStanding of, FreeTime time) => PolicyDrafts.Blocks(of, time, busy, plan.From, plan.ExamDay, plan.Chosen, cancellation);
        ChangeFinder finder = new(standing, attempts, bank, plan, of => Made(of, free));
        int now = FreeTimeScaling.WeeklyMinutes(free);
        int most = FreeTimeScaling.MostWeeklyMinutes(free);
        (int More, PlanDraft Draft)[] ladder = [.. _fewerHours.Select(h => -h * MinutesInHour).Where(m => now + m > 0)
            .Concat(_moreHours.Select(h => h * MinutesInHour).Where(m => now + m <= most))
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(m => (m, Made(standing, FreeTimeScaling.ToWeeklyMinutes(free, now + m))))];
        (TopicChange Topic, (int Block, BlockChange Change)[] Blocks)[] found = [.. Enumerable.Range(0, standing.Topics.Length)
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(t => finder.OfTopic(t, ladder))];
        return new PlanChanges(
            [.. found.SelectMany(f => f.Blocks).OrderBy(b => b.Block).Select(b => b.Change)],
            found.Index().ToImmutableDictionary(f => standing.Exam.Topics[f.Index].Name, f => f.Item.Topic));
    }

    private (TopicChange Topic, (int Block, BlockChange Change)[] Blocks) OfTopic(int topic, (int More, PlanDraft Draft)[] ladder)
    {
        // The model of each quiz result, made when it is asked for.
        Dictionary<int, QuickScoreModel> after = [];
        QuickScoreModel Now() => after.TryGetValue(-1, out QuickScoreModel? known) ? known : after[-1] = Loaded(standing.Posterior);
        QuickScoreModel After(int correct) => after.TryGetValue(correct, out QuickScoreModel? known) ? known : after[correct] = Loaded(AfterQuiz(topic, correct));

        if (plan.Blocks.IsEmpty)
        {
            return (new TopicChange(null, null, "Free time before the exam would bring it in."), []);
        }

        int[] own = [.. study.BlocksOf(topic)];
        if (own.Length == 0)
        {
            (int, int)[] exchanges = [.. plan.Blocks.Select((_, b) => (b, topic)).Where(e => MayTake(e.b, topic))];
            return (LeftAlone(Threshold(topic, Now(), After, exchanges, correct => replan(StandingAfter(topic, correct)).MinutesOn(topic) > 0).Quiz, ladder.Where(l => l.More > 0).Select(l => (l.More, l.Draft.MinutesOn(topic) > 0))), []);
        }

        ScoreModel model = Coarse(standing);
        double pass = model.PassChance(efforts);
        (int Block, BlockChange Change)[] blocks = [.. own.Select(b => (b, OfBlock(b, effort => pass - model.PassChance(effort), Now(), After)))];
        int expected = Expected(topic);
        QuizThreshold? nearest = blocks.Select(b => b.Change.Quiz).OfType<QuizThreshold>().OrderBy(q => Math.Abs(q.Correct - expected)).Cast<QuizThreshold?>().FirstOrDefault();
        return (Studied(nearest, ladder.Where(l => l.More < 0).Select(l => (-l.More, l.Draft.MinutesOn(topic) == 0)).Reverse()), blocks);
    }

    private BlockChange OfBlock(int block, Func<double[], double> lossAt, QuickScoreModel now, Func<int, QuickScoreModel> after)
    {
        int topic = study.Topics[block];
        double[] changed = [.. efforts];
        changed[topic] = without[block];
        double loss = lossAt(changed);
        (int Block, int To)[] exchanges = [.. Enumerable.Range(0, efforts.Length).Where(t => MayTake(block, t)).Select(t => (block, t))];
        string drop = loss < AsGood ? "Leaving it out costs no pass chance" : $"Leaving it out costs {PlanSentences.Points(loss)} of pass chance";
        if (exchanges.Length == 0)
        {
            return new BlockChange(loss, null, loss, null, drop + ".");
        }

        int instead = exchanges.MaxBy(e => Allocator.Value(Exchanged(now, e))).To;
        changed[instead] = with[block][instead];
        double insteadLoss = lossAt(changed);
        string name = standing.Exam.Topics[instead].Name;
        string swap = $"giving it to {name}, the next best use, {(insteadLoss < AsGood ? "none" : PlanSentences.Points(insteadLoss))}";
        (QuizThreshold? quiz, int to) = Threshold(topic, now, after, exchanges);
        string move = quiz is { } result
            ? $"With {result} right in a quiz on {standing.Exam.Topics[topic].Name} it would go to {standing.Exam.Topics[to].Name}."
            : $"No result of a quiz of {QuizThreshold.Items} items on {standing.Exam.Topics[topic].Name} would move it.";
        return new BlockChange(loss, name, insteadLoss, quiz, $"{drop}, {swap}. {move}");
    }

    private static TopicChange Studied(QuizThreshold? quiz, IEnumerable<(int Fewer, bool Out)> ladder)
    {
        (int Fewer, bool Out)[] tried = [.. ladder];
        int? fewer = tried.Where(l => l.Out).Select(l => (int?)l.Fewer).FirstOrDefault();
        string loses = quiz is { } result ? $"A quiz with {result} right would give some of its time to another topic" : $"No result of a quiz of {QuizThreshold.Items} items would give its time to another topic";
        string hours = fewer is { } f ? $"; with {Hours(f)} a week less it would be left alone"
            : tried.Length > 0 ? $"; with {Hours(tried[^1].Fewer)} a week less it would still be studied" : "";
        return new TopicChange(quiz, -fewer, $"{loses}{hours}.");
    }

    private static TopicChange LeftAlone(QuizThreshold? quiz, IEnumerable<(int More, bool In)> ladder)
    {
        (int More, bool In)[] tried = [.. ladder];
        int? more = tried.Where(l => l.In).Select(l => (int?)l.More).FirstOrDefault();
        string most = tried.Length == 0 ? "" : $"{Hours(tried[^1].More)} a week more";
        return new TopicChange(quiz, more, (more, quiz) switch
        {
            ({ } hours, { } result) => $"It would come in from about {Hours(hours)} a week more, or if a quiz showed {result} right.",
            ({ } hours, null) => $"It would come in from about {Hours(hours)} a week more; no result of a quiz of {QuizThreshold.Items} items would bring it in.",
            (null, { } result) => $"It would come in if a quiz showed {result} right{(most.Length == 0 ? "" : $"; {most} would not do it")}.",
            _ => $"No result of a quiz of {QuizThreshold.Items} items would bring it in{(most.Length == 0 ? "" : $", nor would {most}")}.",
        });
    }

    // The result nearest to the expected one with which one of these exchanges gains pass chance and, where asked for, something else holds; and the topic that gets the time.
    private (QuizThreshold? Quiz, int To) Threshold(int topic, QuickScoreModel now, Func<int, QuickScoreModel> after, (int Block, int To)[] exchanges, Func<int, bool>? holds = null)
    {
        int expected = Expected(topic);
        double gainNow = Best(now, exchanges).Gain;
        for (int off = 1; off <= QuizThreshold.Items && exchanges.Length > 0; off++)
        {
            foreach (int correct in new[] { expected - off, expected + off }.Where(c => c is >= 0 and <= QuizThreshold.Items))
            {
                (double gain, int to) = Best(after(correct), exchanges);
                if (gain > Math.Max(0, gainNow) + AsGood && holds?.Invoke(correct) != false)
                {
                    return (new QuizThreshold(correct, correct > expected), to);
                }
            }
        }

        return (null, -1);
    }

    private (double Gain, int To) Best(QuickScoreModel quick, (int Block, int To)[] exchanges)
    {
        double now = Allocator.Value(quick.Score);
        return exchanges.Select(e => (Gain: Allocator.Value(Exchanged(quick, e)) - now, e.To)).DefaultIfEmpty().MaxBy(e => e.Gain);
    }

    private int Expected(int topic) => (int)Math.Round(QuizThreshold.Items * standing.Topics[topic].Level.Mean);

    private AbilityPosterior AfterQuiz(int topic, int correct)
        => StandingCalculator.PosteriorOf(standing.Exam, WithQuiz(topic, correct), standing.AsOf, standing.Posterior.Assumptions, bank, standing.Study);

    private CandidateStanding StandingAfter(int topic, int correct)
        => StandingCalculator.Calculate(standing.Exam, WithQuiz(topic, correct), standing.AsOf, standing.Posterior.Assumptions, bank, standing.Study);

    private ImmutableArray<Attempt> WithQuiz(int topic, int correct)
        => attempts.Add(new("", "quiz that may come", AttemptKind.Quiz, standing.AsOf, [TopicCount.Exact(standing.Exam.Topics[topic].Name, correct, QuizThreshold.Items)]));

    // Reviews are of what is met or not weak.
    private bool MayTake(int block, int topic)
        => topic != study.Topics[block]
            && (plan.Blocks[block].Purpose != BlockPurpose.Review || standing.Topics[topic].Level.Band != Band.Weak || study.BlocksOf(topic).Any());

    private QuickScore Exchanged(QuickScoreModel quick, (int Block, int To) exchange)
        => quick.Try(study.Topics[exchange.Block], without[exchange.Block], exchange.To, with[exchange.Block][exchange.To]);

    private QuickScoreModel Loaded(AbilityPosterior posterior)
    {
        QuickScoreModel quick = new(standing.Exam, learning);
        quick.Load(posterior, effortNow);
        quick.Set(efforts);
        return quick;
    }

    // Keeps buffers of its own, so every topic has one.
    private static ScoreModel Coarse(CandidateStanding standing) => new(standing, null, QuadratureDetail.Coarse);

    private static string Hours(int minutes) => minutes == MinutesInHour ? "1 hour" : string.Create(CultureInfo.InvariantCulture, $"{minutes / MinutesInHour} hours");
}
