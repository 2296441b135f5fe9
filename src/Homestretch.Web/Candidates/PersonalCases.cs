using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files;
using Homestretch.Store;
using Homestretch.Web.Cases;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.Candidates;

/// <summary>What candidates see and record by their personal links.</summary>
/// <param name="library">Finds cases.</param>
/// <param name="store">Keeps what is recorded.</param>
/// <param name="keeper">Makes plans anew.</param>
/// <param name="time">The clock.</param>
public sealed class PersonalCases(CaseLibrary library, CaseStore store, PlanKeeper keeper, TimeProvider time)
{
    // No token is longer; a longer text is not worth hashing.
    private const int MostTokenLength = 64;

    private static readonly LocalDateTimePattern _quizName = LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss");

    /// <summary>The key of the case whose pages a token opens; null where it opens none.</summary>
    public Task<string?> KeyOfAsync(string token, CancellationToken cancellation)
        => token.Length > MostTokenLength ? Task.FromResult<string?>(null) : store.CaseOfPageAsync(PersonalToken.Hash(token), cancellation);

    /// <summary>What the pages of a token show; null where it opens none, or the case cannot be read.</summary>
    public async Task<PersonalView?> FindAsync(string token, CancellationToken cancellation)
        => await KeyOfAsync(token, cancellation) is { } key ? await ViewAsync(key, cancellation) : null;

    /// <summary>What the calendar feed of a token is made of; null where it opens none.</summary>
    public async Task<PersonalView?> FindFeedAsync(string token, CancellationToken cancellation)
        => token.Length <= MostTokenLength && await store.CaseOfFeedAsync(PersonalToken.Hash(token), cancellation) is { } key ? await ViewAsync(key, cancellation) : null;

    /// <summary>What there is to show of a case; null where it cannot be read.</summary>
    public async Task<PersonalView?> ViewAsync(string key, CancellationToken cancellation)
    {
        if ((await library.FindAsync(key, cancellation))?.Value is not { IsDemo: false } found)
        {
            return null;
        }

        ZonedDateTime now = library.Now(found);
        (IReadOnlyList<PlanMoment> kept, ImmutableArray<KeptPlan> plans) = await keeper.PlansAsync(key, PersonalView.Since(now), cancellation);
        return new(key, found, now, kept, plans, await store.SessionsAsync(key, cancellation));
    }

    /// <summary>Records what became of a block, in place of what was recorded of it before, and makes the plan anew.</summary>
    /// <param name="view">The case.</param>
    /// <param name="blockId">The block's name.</param>
    /// <param name="start">Its start, as its plan says it.</param>
    /// <param name="outcome">What became of it.</param>
    /// <param name="minutes">Minutes studied, where it was done in part.</param>
    /// <param name="cancellation">Stops the recording.</param>
    /// <returns>The number of the row; null where there is no such block up to today, or the minutes cannot be.</returns>
    public async Task<long?> RecordAsync(PersonalView view, string blockId, string start, StudyOutcome outcome, int? minutes, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(view);
        KeptBlock? block = view.Plans.Reverse().SelectMany(p => p.Blocks).FirstOrDefault(b => b.Fields.Id == blockId && b.Fields.Start == start);
        if (block is null || block.Start.Date > view.Now.Date)
        {
            return null;
        }

        int studied = outcome == StudyOutcome.Partly ? minutes ?? Math.Max(1, block.Fields.Minutes / 2) : block.Fields.Minutes;
        if (studied < 1 || studied > block.Fields.Minutes)
        {
            return null;
        }

        StudyRow row = new()
        {
            At = time.GetUtcNow().ToInstant(),
            Origin = Origin.Candidate,
            Outcome = outcome,
            Candidate = view.Case.Candidate,
            Date = LocalDatePattern.Iso.Format(block.Start.Date),
            Topic = block.Fields.Topic,
            Minutes = outcome == StudyOutcome.Missed ? "" : studied.ToString(CultureInfo.InvariantCulture),
            How = block.Fields.Purpose,
            Block = block.Fields.Id,
            PlannedStart = block.Fields.Start,
            PlannedMinutes = block.Fields.Minutes,
        };
        StudyRow[] before = [.. view.Sessions.Where(s => PersonalView.IsOf(s, block))];
        if (before is [.., { } last] && last.Outcome == outcome && last.Minutes == row.Minutes)
        {
            // A second tap.
            return last.Id;
        }

        if (before.Length > 0)
        {
            await store.TakeOutAsync<StudyRow>(view.Key, [.. before.Select(s => s.Id)], row.At, cancellation);
        }

        await store.KeepAsync(view.Key, [row], cancellation);
        string what = outcome switch { StudyOutcome.Done => "done", StudyOutcome.Partly => "partly done", _ => "missed" };
        await keeper.RefreshAsync(view.Key, $"{block.Purpose} {block.Fields.Topic}: {what}.", cancellation);
        return row.Id;
    }

    /// <summary>Records a short quiz and makes the plan anew.</summary>
    /// <param name="view">The case.</param>
    /// <param name="counts">Per topic, by the exam's order: correct answers and items.</param>
    /// <param name="cancellation">Stops the recording.</param>
    /// <returns>The numbers of the rows, or what stands in the way.</returns>
    public async Task<(ImmutableArray<long> Rows, ImmutableArray<string> Problems)> RecordQuizAsync(
        PersonalView view, IReadOnlyList<(string Topic, int Correct, int Items)> counts, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(counts);
        Instant now = time.GetUtcNow().ToInstant();
        EvidenceRow[] rows = [.. counts.Select(c => new EvidenceRow
        {
            At = now,
            Origin = Origin.Candidate,
            Candidate = view.Case.Candidate,
            Attempt = "quiz " + _quizName.Format(now.InZone(view.Now.Zone).LocalDateTime),
            Kind = "quiz",
            Date = LocalDatePattern.Iso.Format(view.Now.Date),
            Topic = c.Topic,
            Correct = c.Correct.ToString(CultureInfo.InvariantCulture),
            Items = c.Items.ToString(CultureInfo.InvariantCulture),
        })];
        string what = counts.Count == 1
            ? string.Create(CultureInfo.InvariantCulture, $"{counts[0].Correct} of {counts[0].Items} on {counts[0].Topic}")
            : string.Create(CultureInfo.InvariantCulture, $"{counts.Sum(c => c.Correct)} of {counts.Sum(c => c.Items)} on {counts.Count} topics");
        return await RecordAnswersAsync(view, rows, $"A short quiz: {what}.", cancellation);
    }

    /// <summary>Records rows of a quiz, checked together with all that is there, and makes the plan anew.</summary>
    /// <param name="view">The case.</param>
    /// <param name="rows">The rows.</param>
    /// <param name="why">Why the plan is made anew, in one sentence for the candidate.</param>
    /// <param name="cancellation">Stops the recording.</param>
    /// <returns>The numbers of the rows, or what stands in the way.</returns>
    public async Task<(ImmutableArray<long> Rows, ImmutableArray<string> Problems)> RecordAnswersAsync(
        PersonalView view, IReadOnlyCollection<EvidenceRow> rows, string why, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(view);
        ArgumentNullException.ThrowIfNull(rows);
        if (await store.FindAsync(view.Key, cancellation) is not { } stored)
        {
            return ([], ["This case is no longer here."]);
        }

        List<FileProblem> problems = [];
        CaseReader.Read(CaseFiles.Of(stored).With(new NamedFile(FileRole.Evidence, "quiz", KeptRows.EvidenceText(rows))), problems);
        if (problems.Count > 0)
        {
            return ([], [.. problems.Select(p => p.Message)]);
        }

        await store.KeepAsync(view.Key, rows, cancellation);
        await keeper.RefreshAsync(view.Key, why, cancellation);
        return ([.. rows.Select(r => r.Id)], []);
    }

    /// <summary>Takes out what the candidate recorded, and makes the plan anew; false where there is nothing of that kind.</summary>
    /// <param name="view">The case.</param>
    /// <param name="study">Whether the rows are study; otherwise they are a quiz.</param>
    /// <param name="ids">The rows.</param>
    /// <param name="cancellation">Stops it.</param>
    public async Task<bool> UndoAsync(PersonalView view, bool study, IReadOnlyCollection<long> ids, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(view);
        Instant now = time.GetUtcNow().ToInstant();

        // A candidate undoes only what came from these pages.
        int undone = study
            ? await store.TakeOutAsync<StudyRow>(view.Key, [.. view.Sessions.Where(s => s.Origin == Origin.Candidate && ids.Contains(s.Id)).Select(s => s.Id)], now, cancellation)
            : await store.FindAsync(view.Key, cancellation) is { } stored
                ? await store.TakeOutAsync<EvidenceRow>(view.Key, [.. stored.Evidence.Where(r => r.Origin == Origin.Candidate && ids.Contains(r.Id)).Select(r => r.Id)], now, cancellation)
                : 0;
        if (undone == 0)
        {
            return false;
        }

        await keeper.RefreshAsync(view.Key, study ? "A session was taken back." : "A quiz was taken back.", cancellation);
        return true;
    }
}
