using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;
using Homestretch.Files.Plans;
using Homestretch.Store;
using Homestretch.Web.Assuming;
using Homestretch.Web.Cases;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Candidates;

/// <summary>Makes a case's plan anew when what it rests on has changed, and keeps every plan with the reason why it was made.</summary>
/// <param name="library">Finds cases.</param>
/// <param name="store">Keeps plans.</param>
/// <param name="time">The clock.</param>
public sealed class PlanKeeper(CaseLibrary library, CaseStore store, TimeProvider time) : IDisposable
{
    // Bounds the memory.
    private const int MostRead = 512;

    private readonly ConcurrentDictionary<long, KeptPlan> _read = new();
    private readonly SemaphoreSlim _first = new(1, 1);

    private readonly ConcurrentDictionary<long, (Exam Exam, EarlierPlan? Plan)> _earlier = new();

    /// <summary>Makes the plan anew and keeps it. Nothing happens where the case cannot be read, is the demo's, or its exam day has passed.</summary>
    /// <param name="key">The case.</param>
    /// <param name="why">Why, in one sentence for the candidate.</param>
    /// <param name="cancellation">Stops the planning.</param>
    public async Task RefreshAsync(string key, string why, CancellationToken cancellation)
    {
        if ((await library.FindAsync(key, cancellation))?.Value is not { IsDemo: false } found)
        {
            return;
        }

        ZonedDateTime from = library.Now(found);
        if (found.ExamDay < from.Date)
        {
            return;
        }

        PreparedCase prepared = library.Prepare(found, from.Date);
        Onward? onward = await OnwardAsync(prepared, from, cancellation);
        CandidateReport report = prepared.ReportOn(prepared.Standing, () => onward is not null
            ? Replanner.Plan(prepared.Standing, found.Free, onward.Busy, from, found.ExamDay, onward.Earlier, cancellation: cancellation)
            : Planner.Plan(prepared.Standing, found.Free, prepared.Busy, from, found.ExamDay, cancellation: cancellation));
        PlanVersion version = new()
        {
            At = time.GetUtcNow().ToInstant(),
            Origin = Origin.Program,
            Why = why,
            Document = DocumentJson.Write(PlanDocument.Of(report)),
        };
        await store.KeepAsync(key, [version], cancellation);
    }

    /// <summary>Makes the first plan of a case where there is none yet. False where none can be made.</summary>
    public async Task<bool> FirstAsync(string key, CancellationToken cancellation)
    {
        if ((await store.PlanIdsAsync(key, cancellation)).Count > 0)
        {
            return true;
        }

        // Two who ask at the same time get one first plan.
        await _first.WaitAsync(cancellation);
        try
        {
            if ((await store.PlanIdsAsync(key, cancellation)).Count == 0)
            {
                await RefreshAsync(key, "Your first plan.", cancellation);
                return (await store.PlanIdsAsync(key, cancellation)).Count > 0;
            }

            return true;
        }
        finally
        {
            _first.Release();
        }
    }

    /// <summary>When and why every plan of a case was made, oldest first, and those plans themselves that held at some time since <paramref name="since"/>, at least the last two;
    /// a first plan is made where there is none yet.</summary>
    public async Task<(IReadOnlyList<PlanMoment> Moments, ImmutableArray<KeptPlan> Plans)> PlansAsync(string key, Instant since, CancellationToken cancellation)
    {
        IReadOnlyList<PlanMoment> moments = await MomentsAsync(key, cancellation);

        // The plan before the first one of that time still held when it began.
        int later = 0;
        while (later < moments.Count && moments[later].At < since)
        {
            later++;
        }

        int first = Math.Max(0, Math.Min(later - 1, moments.Count - 2));
        ImmutableArray<KeptPlan>.Builder plans = ImmutableArray.CreateBuilder<KeptPlan>(moments.Count - first);
        foreach (long id in moments.Skip(first).Select(m => m.Id))
        {
            if (_read.TryGetValue(id, out KeptPlan? known))
            {
                plans.Add(known);
            }
            else if (await store.PlanAsync(id, cancellation) is { } version)
            {
                if (_read.Count >= MostRead)
                {
                    _read.Clear();
                }

                plans.Add(_read[id] = KeptPlan.Of(version));
            }
        }

        return (moments, plans.ToImmutable());
    }

    /// <inheritdoc/>
    public void Dispose() => _first.Dispose();

    /// <summary>A report with the pass chance at every plan of its case so far; as it is where the case is the demo's.</summary>
    public async Task<CandidateReport> WithHistoryAsync(CandidateReport report, ReadCase of, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(of);
        return of.IsDemo ? report : report with { History = Moments(await MomentsAsync(of.Key, cancellation), of.Free.Zone) };
    }

    /// <summary>How the pass chance has moved, plan by plan.</summary>
    public static ImmutableArray<PassMoment> Moments(IEnumerable<PlanMoment> plans, DateTimeZone zone)
        => [.. plans.Where(p => p.WithPlan is not null && p.WithoutStudy is not null)
            .Select(p => new PassMoment(p.At.InZone(zone).LocalDateTime, p.WithPlan!.Value, p.WithoutStudy!.Value, p.Why))];

    /// <summary>What a plan of a case made now goes on from; null where no plan was kept yet, it was for another form of the exam, or the case is the demo's.</summary>
    public async Task<Onward?> OnwardAsync(PreparedCase prepared, ZonedDateTime from, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        ReadCase of = prepared.Case;
        if (of.IsDemo || await store.PlanIdsAsync(of.Key, cancellation) is not [.., long last] || await EarlierAsync(last, of, cancellation) is not { } earlier)
        {
            return null;
        }

        // The time of a block is used up once somebody said what became of it, also where that was said before it came.
        return new(
            earlier,
            [
                .. prepared.Busy,
                .. (await store.SessionsAsync(of.Key, cancellation))
                    .Where(s => s.PlannedStart is not null)
                    .Select(s => (Start: PlanDocument.Time(s.PlannedStart!).ToInstant(), Minutes: s.PlannedMinutes ?? 0))
                    .Select(s => new Interval(s.Start, s.Start + Duration.FromMinutes(s.Minutes)))
                    .Where(time => time.End > from.ToInstant()),
            ]);
    }

    // When and why every plan of a case was made; a first one is made where there is none yet.
    private async Task<IReadOnlyList<PlanMoment>> MomentsAsync(string key, CancellationToken cancellation)
    {
        IReadOnlyList<PlanMoment> moments = await store.PlanMomentsAsync(key, cancellation);
        return moments.Count == 0 && await FirstAsync(key, cancellation) ? await store.PlanMomentsAsync(key, cancellation) : moments;
    }

    private async Task<EarlierPlan?> EarlierAsync(long id, ReadCase of, CancellationToken cancellation)
    {
        if (_earlier.TryGetValue(id, out (Exam Exam, EarlierPlan? Plan) known) && ReferenceEquals(known.Exam, of.Exam))
        {
            return known.Plan;
        }

        EarlierPlan? plan = await store.PlanAsync(id, cancellation) is { } version
            ? PlanFile.Parse("plan", Encoding.UTF8.GetBytes(version.Document), of.Exam, of.Candidate).Value
            : null;
        if (_earlier.Count >= MostRead)
        {
            _earlier.Clear();
        }

        _earlier[id] = (of.Exam, plan);
        return plan;
    }
}
