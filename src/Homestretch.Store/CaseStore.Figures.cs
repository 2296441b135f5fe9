using System.Collections.Concurrent;

using Homestretch.Core.Rooms;
using Homestretch.Files.StudyLogs;

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

using NodaTime;

namespace Homestretch.Store;

/// <content>Figures that lists and histories show.</content>
public sealed partial class CaseStore
{
    // A list looks back one week; one day more for people whose day is not that of UTC.
    private const int DaysBefore = NeedRules.Week + 1;

    // More days than any plan has.
    private const int MostDays = 400;

    // Cases of one transaction when an older database is opened.
    private const int FilledAtOnce = 200;

    // Above this many changed cases, all are read at once.
    private const int MostReadSingly = 500;

    private readonly ConcurrentDictionary<string, (long Revision, ListedCase Case)> _listed = new();

    /// <summary>Every case in use with its figures, in no particular order.</summary>
    /// <remarks>Reads a number for each case, and whole only those that changed since the last call: about a microsecond a case where none has.</remarks>
    public async Task<IReadOnlyList<ListedCase>> ListedAsync(CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        IQueryable<CaseFigures> inUse = database.Figures.Where(f => database.Cases.Any(c => c.Key == f.CaseKey && c.RemovedAt == null));
        List<KeyValuePair<string, long>> now = await inUse.Select(f => new KeyValuePair<string, long>(f.CaseKey, f.Revision)).ToListAsync(cancellation);
        string[] changed = [.. now.Where(n => !_listed.TryGetValue(n.Key, out (long Revision, ListedCase Case) known) || known.Revision != n.Value).Select(n => n.Key)];
        if (changed.Length > 0)
        {
            IQueryable<CaseFigures> read = changed.Length > MostReadSingly ? inUse : inUse.Where(f => changed.Contains(f.CaseKey));
            List<ListedRow> rows = await read
                .Join(database.Cases, f => f.CaseKey, c => c.Key, (f, c) => new ListedRow(c.Key, c.Candidate, c.ExamKey, f.Revision, f.ExamDay, f.HeardOn, f.HasLink, f.HasResult, f.FirstDay, f.ByDay))
                .ToListAsync(cancellation);
            foreach (ListedRow row in rows)
            {
                _listed[row.Key] = (row.Revision, row.Read());
            }
        }

        if (_listed.Count > now.Count)
        {
            HashSet<string> here = [.. now.Select(n => n.Key)];
            foreach (string gone in _listed.Keys.Where(k => !here.Contains(k)))
            {
                _listed.TryRemove(gone, out _);
            }
        }

        // What was removed between the two readings is in neither.
        List<ListedCase> all = new(now.Count);
        foreach ((string key, _) in now)
        {
            if (_listed.TryGetValue(key, out (long Revision, ListedCase Case) one))
            {
                all.Add(one.Case);
            }
        }

        return all;
    }

    /// <summary>When and why the plans of a case were made, oldest first, without their documents.</summary>
    public async Task<IReadOnlyList<PlanMoment>> PlanMomentsAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        return await database.Set<PlanVersion>().Where(p => p.CaseKey == key && p.RemovedAt == null).OrderBy(p => p.Id)
            .Select(p => new PlanMoment(p.Id, p.At, p.Why, p.WithPlan, p.WithoutStudy)).ToListAsync(cancellation);
    }

    private static void Summarise(IEnumerable<PlanVersion> plans)
    {
        foreach (PlanVersion plan in plans)
        {
            PlanSummary summary = PlanSummary.Of(plan.Document);
            plan.WithPlan = summary.WithPlan;
            plan.WithoutStudy = summary.WithoutStudy;
            plan.FirstDay = summary.FirstDay;
            plan.Minutes = summary.Minutes;
        }
    }

    // Works out a case's figures from its rows, in the transaction that changed them.
    private static async Task RefigureAsync(HomestretchDatabase database, string key, CancellationToken cancellation)
    {
        StoredCase one = await database.Cases.AsNoTracking().SingleAsync(c => c.Key == key, cancellation);
        LocalDate? moved = await database.Set<Decision>().Where(d => d.CaseKey == key && d.RemovedAt == null && d.ExamDay != null)
            .OrderByDescending(d => d.Id).Select(d => d.ExamDay).FirstOrDefaultAsync(cancellation);
        Instant heard = one.CreatedAt;
        foreach (Instant? last in new[] { await LastAsync<EvidenceRow>(database, key, cancellation), await LastAsync<StudyRow>(database, key, cancellation), await LastAsync<RecallRow>(database, key, cancellation) })
        {
            heard = last is { } at && at > heard ? at : heard;
        }

        var plans = await database.Set<PlanVersion>().Where(p => p.CaseKey == key && p.RemovedAt == null).OrderBy(p => p.Id)
            .Select(p => new { p.At, p.WithPlan, p.FirstDay, p.Minutes }).ToListAsync(cancellation);
        LocalDate examDay = moved ?? one.ExamDay;
        (LocalDate Made, double? Chance, LocalDate? FirstDay, string[] Minutes)[] made = [.. plans.Select(p => (p.At.InUtc().Date, p.WithPlan, p.FirstDay, (p.Minutes ?? "").Split(',')))];
        LocalDate first = (made.Length > 0 ? made[^1].Made : one.CreatedAt.InUtc().Date).PlusDays(-DaysBefore);
        DayFigures[] days = new DayFigures[Math.Clamp(Period.DaysBetween(first, examDay) + 1, DaysBefore + 1, MostDays)];
        for (int i = 0; i < days.Length; i++)
        {
            LocalDate day = first.PlusDays(i);

            // The plan that held when the day began; where there was none yet, the first one.
            int held = Math.Max(0, Array.FindLastIndex(made, p => p.Made < day));
            int ofDay = Array.FindLastIndex(made, p => p.Made == day || (i == 0 && p.Made < day));
            days[i] = new(made.Length == 0 ? 0 : PlanSummary.MinutesOn(made[held].FirstDay, made[held].Minutes, day), 0, 0, ofDay < 0 ? null : made[ofDay].Chance);
        }

        var sessions = await database.Set<StudyRow>().Where(s => s.CaseKey == key && s.RemovedAt == null)
            .Select(s => new { s.Date, s.Outcome, s.Minutes }).ToListAsync(cancellation);
        foreach (var session in sessions)
        {
            (LocalDate? day, int minutes) = StudyLogFile.DayAndMinutes(session.Date, session.Minutes);
            if (day is { } of && Period.DaysBetween(first, of) is >= 0 and int at && at < days.Length)
            {
                bool missed = session.Outcome == StudyOutcome.Missed;
                days[at] = days[at] with { Done = days[at].Done + (missed ? 0 : minutes), Missed = days[at].Missed + (missed ? 1 : 0) };
            }
        }

        CaseFigures? figures = await database.Figures.FindAsync([key], cancellation);
        if (figures is null)
        {
            figures = new CaseFigures { CaseKey = key };
            database.Figures.Add(figures);
        }

        figures.ExamDay = examDay;
        figures.HeardOn = heard.InUtc().Date;
        figures.HasLink = await database.Set<PersonalLink>().AnyAsync(l => l.CaseKey == key && l.RemovedAt == null, cancellation);

        // A failed attempt before the day that is planned for now is no result of that day.
        figures.HasResult = (await database.Set<OfficialResult>().Where(r => r.CaseKey == key && r.RemovedAt == null).Select(r => new { r.Passed, r.Date }).ToListAsync(cancellation))
            .Exists(r => r.Passed || r.Date >= examDay);
        figures.FirstDay = first;
        figures.ByDay = new FiguresByDay(first, [.. days]).Write();
        figures.Revision = Random.Shared.NextInt64();
        await database.SaveChangesAsync(cancellation);
    }

    private static async Task<Instant?> LastAsync<T>(HomestretchDatabase database, string key, CancellationToken cancellation)
        where T : KeptRow
        => await database.Set<T>().Where(r => r.CaseKey == key && r.RemovedAt == null).OrderByDescending(r => r.Id).Select(r => (Instant?)r.At).FirstOrDefaultAsync(cancellation);

    /// <summary>Works out the figures of cases and plans that an older version of the program kept without them.</summary>
    private async Task FillFiguresAsync(CancellationToken cancellation)
    {
        await using HomestretchDatabase database = _open();
        List<string> keys = await database.Cases.Where(c => !database.Figures.Any(f => f.CaseKey == c.Key)).Select(c => c.Key).ToListAsync(cancellation);
        foreach (string[] some in keys.Chunk(FilledAtOnce))
        {
            await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
            foreach (string key in some)
            {
                database.ChangeTracker.Clear();
                Summarise(await database.Set<PlanVersion>().Where(p => p.CaseKey == key && p.Minutes == null).ToListAsync(cancellation));
                await database.SaveChangesAsync(cancellation);
                await RefigureAsync(database, key, cancellation);
            }

            await transaction.CommitAsync(cancellation);
        }
    }

    private sealed record ListedRow(
        string Key, string Candidate, string ExamKey, long Revision, LocalDate ExamDay, LocalDate HeardOn, bool HasLink, bool HasResult, LocalDate FirstDay, string ByDay)
    {
        public ListedCase Read() => new(Key, Candidate, ExamKey, new CandidateFigures(ExamDay, HeardOn, HasLink, HasResult, FiguresByDay.Read(FirstDay, ByDay)));
    }
}
