using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Planning.Sensitivity;

/// <summary>Works out which assumptions a plan hangs on: each is moved to its lowest and highest plausible value, all others as they are.</summary>
public static class SensitivityCalculator
{
    // Plans nearer than this are as good as each other: the present one stays.
    private const double AsGood = 1e-4;

    /// <summary>The table for one person's plan.</summary>
    /// <param name="standing">The person's standing.</param>
    /// <param name="attempts">What it rests on.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="free">When the person can study.</param>
    /// <param name="busy">When not.</param>
    /// <param name="bank">Calibrated items the standing was computed with, or null.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <remarks>Cost: about 34 plans and 14 standings, on all processors.</remarks>
    public static SensitivityTable Vary(
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
        ModelFigures figures = new(standing.Posterior.Assumptions, standing.Study.Learning, 0);
        ScoreModel model = new(standing);
        PlannedStudy study = new(plan, standing);
        ImmutableArray<VariedAssumption> ranges = AssumptionRanges.Of(figures, model.TimeMatters);
        AssumedOutcome[] outcomes = [.. ranges.SelectMany(r => new[] { (r.Change, Value: r.Range.Low), (r.Change, Value: r.Range.High) })
            .AsParallel().AsOrdered().WithCancellation(cancellation)
            .Select(v => Outcome(v.Value, Standing(standing, attempts, bank, v.Change(figures, v.Value)), plan, study, free, busy, cancellation))];
        return new SensitivityTable(
            model.PassChance(study.Efforts(standing, model)),
            [.. ranges.Select((r, i) => new AssumptionEffect(r.Range, outcomes[2 * i], outcomes[(2 * i) + 1]))
                .OrderByDescending(SensitivityTable.MattersToPlan)
                .ThenByDescending(e => SensitivityTable.MattersToPlan(e) ? e.Regret : e.Swing)]);
    }

    private static CandidateStanding Standing(CandidateStanding standing, ImmutableArray<Attempt> attempts, ItemBank? bank, ModelFigures figures)
    {
        StudyHistory study = standing.Study.With(standing.Exam, figures.Learning);
        bool same = figures.Standing == standing.Posterior.Assumptions && study.IsEmpty;
        CandidateStanding changed = same
            ? standing with { Study = study }
            : StandingCalculator.Calculate(standing.Exam, attempts, standing.AsOf, figures.Standing, bank, study);
        return changed with
        {
            Taking = standing.Taking with { Pace = standing.Taking.Pace is { } pace ? pace with { LogMean = pace.LogMean + figures.Slower } : null },
        };
    }

    private static AssumedOutcome Outcome(
        double value, CandidateStanding standing, StudyPlan plan, PlannedStudy study, FreeTime free, IReadOnlyList<Interval> busy, CancellationToken cancellation)
    {
        PlanDraft draft = PolicyDrafts.Blocks(standing, free, busy, plan.From, plan.ExamDay, cancellation: cancellation);
        ScoreModel model = new(standing);
        double kept = model.PassChance(study.Efforts(standing, model));
        double best = model.PassChance(draft.Effort);
        if (best <= kept + AsGood)
        {
            return new AssumedOutcome(value, kept, kept, 0);
        }

        int[] minutes = [.. Enumerable.Range(0, standing.Topics.Length).Select(t => study.BlocksOf(t).Sum(b => plan.Blocks[b].Minutes))];
        return new AssumedOutcome(value, kept, best, minutes.Select((m, t) => Math.Max(0, m - draft.MinutesOn(t))).Sum());
    }
}
