using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files;
using Homestretch.Store;
using Homestretch.Web.Assuming;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;
using Homestretch.Web.Uploads;
using Homestretch.Web.WordPractice;

using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.Keeping;

/// <summary>Adding to a case, taking out and putting back, decisions, everything out as files, and erasing a person.</summary>
public static class KeptRoutes
{
    /// <summary>Where words stand on the page.</summary>
    public const string WordsTitle = "words-title";

    // What can be taken out, by the name a form gives it.
    private static readonly ImmutableDictionary<string, MarkRows> _kinds = new Dictionary<string, MarkRows>
    {
        [nameof(EvidenceRow)] = Marks<EvidenceRow>(),
        [nameof(StudyRow)] = Marks<StudyRow>(),
        [nameof(StoredFile)] = Marks<StoredFile>(),
        [nameof(Decision)] = Marks<Decision>(),
        [nameof(OfficialResult)] = Marks<OfficialResult>(),
    }.ToImmutableDictionary();

    // Words are recalled beside the plan, and their rows hang together.
    private static readonly ImmutableDictionary<string, MarkWords> _wordKinds = new Dictionary<string, MarkWords>
    {
        [nameof(WordRow)] = (shelf, key, ids, removedAt, cancellation) => shelf.MarkAsync<WordRow>(key, ids, removedAt, cancellation),
        [nameof(RecallRow)] = (shelf, key, ids, removedAt, cancellation) => shelf.MarkAsync<RecallRow>(key, ids, removedAt, cancellation),
    }.ToImmutableDictionary();

    private delegate Task<int> MarkRows(CaseStore store, string key, IReadOnlyCollection<long> ids, Instant? removedAt, CancellationToken cancellation);

    private delegate Task<(int Changed, ImmutableArray<FileProblem> Problems)> MarkWords(WordShelf shelf, string key, IReadOnlyCollection<long> ids, Instant? removedAt, CancellationToken cancellation);

    /// <summary>Maps what the page of what is kept does.</summary>
    public static void MapKept(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/export", (CaseStore store, HttpContext context) => Zipped(context, store, null, "homestretch.zip"));
        routes.MapGet("/case/{key}/export", async (string key, CaseStore store, HttpContext context, CancellationToken cancellation) =>
            await store.VersionAsync(key, cancellation) is null ? Results.NotFound() : Zipped(context, store, key, key + ".zip"));
        routes.MapPost("/case/{key}/keep", KeepAsync);
        routes.MapPost("/case/{key}/take-out", (string key, [FromForm] IFormCollection form, CaseStore store, WordShelf shelf, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation) =>
            MarkAsync(key, form, time.GetUtcNow().ToInstant(), "Your coach took something out.", store, shelf, keeper, cancellation));
        routes.MapPost("/case/{key}/put-back", (string key, [FromForm] IFormCollection form, CaseStore store, WordShelf shelf, PlanKeeper keeper, CancellationToken cancellation) =>
            MarkAsync(key, form, null, "Your coach put something back.", store, shelf, keeper, cancellation));
        routes.MapPost("/case/{key}/decision", DecideAsync);
        routes.MapPost("/case/{key}/erase", EraseAsync);
    }

    /// <summary>Every problem that some new files of a case have, alone or together with what is there.</summary>
    public static ImmutableArray<FileProblem> Problems(StoredCase stored, ImmutableArray<NamedFile> added)
    {
        ArgumentNullException.ThrowIfNull(stored);
        List<FileProblem> problems = [];
        CaseReader.Read(added.Aggregate(CaseFiles.Of(stored), (files, file) => files.With(file)), problems);
        return [.. problems];
    }

    private static MarkRows Marks<T>()
        where T : KeptRow
        => (store, key, ids, removedAt, cancellation) => store.MarkAsync<T>(key, ids, removedAt, cancellation);

    private static string Page(string key) => $"/case/{Uri.EscapeDataString(key)}/kept";

    private static async Task<IResult> KeepAsync(
        string key, [FromForm] IFormCollection form, Drafts drafts, CaseStore store, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation)
    {
        if (await store.FindAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        Draft draft = new("", "", [.. (await UploadRoutes.FilesAsync(form, Draft.Empty, cancellation)).Where(f => f.Role != FileRole.Exam)]);
        if (draft.Files.IsEmpty || !Problems(stored, draft.Files).IsEmpty)
        {
            return new SeeOther($"{Page(key)}?draft={drafts.Keep(draft)}#add");
        }

        Instant now = time.GetUtcNow().ToInstant();
        await store.KeepAsync(key, draft.Files.SelectMany(f => KeptRows.Of(f.Role, f.Name, f.Content, now)), cancellation);
        await keeper.RefreshAsync(key, $"Your coach added {string.Join(", ", draft.Files.Select(f => f.Name))}.", cancellation);
        return new SeeOther(Page(key));
    }

    private static async Task<IResult> MarkAsync(
        string key, IFormCollection form, Instant? removedAt, string why, CaseStore store, WordShelf shelf, PlanKeeper keeper, CancellationToken cancellation)
    {
        string kind = form["kind"].ToString();
        if (IdList.Read(form["ids"]) is not { } ids)
        {
            return Results.BadRequest();
        }

        if (_wordKinds.TryGetValue(kind, out MarkWords? words))
        {
            (_, ImmutableArray<FileProblem> problems) = await words(shelf, key, ids, removedAt, cancellation);
            return new SeeOther($"{Page(key)}{(problems.IsEmpty ? "" : "?words=unreadable")}#{WordsTitle}");
        }

        if (!_kinds.TryGetValue(kind, out MarkRows? mark))
        {
            return Results.BadRequest();
        }

        if (await mark(store, key, ids, removedAt, cancellation) > 0)
        {
            await keeper.RefreshAsync(key, why, cancellation);
        }

        return new SeeOther(Page(key));
    }

    private static async Task<IResult> DecideAsync(
        string key, [FromForm] IFormCollection form, CaseLibrary library, Workbench bench, CaseStore store, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation)
    {
        string text = form["text"].ToString().Trim();
        string day = form["exam-day"].ToString().Trim();
        ParseResult<LocalDate> moved = LocalDatePattern.Iso.Parse(day);
        if ((await library.FindAsync(key, cancellation))?.Value is not { IsDemo: false } found)
        {
            return Results.NotFound();
        }

        LocalDate today = library.Now(found).Date;
        if (!DecisionEntry.IsText(text) || (day.Length > 0 && !(moved.Success && DecisionEntry.IsDay(moved.Value, today))))
        {
            return new SeeOther($"{Page(key)}?undecided=yes#decisions-title");
        }

        await store.KeepAsync(
            key, [DecisionEntry.Of(await bench.OpenAsync(found, _ => null, cancellation), text, day.Length > 0 ? moved.Value : null, time.GetUtcNow().ToInstant())], cancellation);
        await keeper.RefreshAsync(key, $"Decided: {text}", cancellation);
        return new SeeOther($"{Page(key)}#decisions-title");
    }

    private static async Task<IResult> EraseAsync(string key, [FromForm] IFormCollection form, CaseStore store, CancellationToken cancellation)
        => form["sure"] != "yes" ? new SeeOther($"{Page(key)}?unsure=yes#erase-title")
            : await store.ErasePersonAsync(key, cancellation) ? new SeeOther("/?erased=yes")
            : Results.NotFound();

    /// <summary>An export as an answer.</summary>
    internal static IResult Zipped(HttpContext context, CaseStore store, string? key, string name)
    {
        context.Response.Headers.ContentDisposition = string.Create(CultureInfo.InvariantCulture, $"attachment; filename=\"{name}\"");
        return Results.Stream(
            async target =>
            {
                // A zip is written by calls that wait; the answer can only be written without waiting. So it goes through a file.
                await using FileStream file = new(
                    Path.GetTempFileName(), FileMode.Open, FileAccess.ReadWrite, FileShare.None, 81920, FileOptions.DeleteOnClose | FileOptions.Asynchronous);
                await store.ExportAsync(file, key, context.RequestAborted);
                file.Position = 0;
                await file.CopyToAsync(target, context.RequestAborted);
            },
            "application/zip");
    }
}
