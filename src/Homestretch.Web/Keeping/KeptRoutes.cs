using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files;
using Homestretch.Store;
using Homestretch.Web.Assuming;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;
using Homestretch.Web.Uploads;

using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.Keeping;

/// <summary>Adding to a case, taking out and putting back, decisions, everything out as files, and erasing a person.</summary>
public static class KeptRoutes
{
    // What can be taken out, by the name a form gives it.
    private static readonly ImmutableDictionary<string, (MarkRows TakeOut, MarkRows PutBack)> _kinds = new Dictionary<string, (MarkRows, MarkRows)>
    {
        [nameof(EvidenceRow)] = Marks<EvidenceRow>(),
        [nameof(StudyRow)] = Marks<StudyRow>(),
        [nameof(StoredFile)] = Marks<StoredFile>(),
        [nameof(Decision)] = Marks<Decision>(),
        [nameof(OfficialResult)] = Marks<OfficialResult>(),
    }.ToImmutableDictionary();

    private delegate Task<int> MarkRows(CaseStore store, string key, IReadOnlyCollection<long> ids, Instant now, CancellationToken cancellation);

    /// <summary>Maps what the page of what is kept does.</summary>
    public static void MapKept(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/export", (CaseStore store, HttpContext context) => Zipped(context, store, null, "homestretch.zip"));
        routes.MapGet("/case/{key}/export", async (string key, CaseStore store, HttpContext context, CancellationToken cancellation) =>
            await store.VersionAsync(key, cancellation) is null ? Results.NotFound() : Zipped(context, store, key, key + ".zip"));
        routes.MapPost("/case/{key}/keep", KeepAsync);
        routes.MapPost("/case/{key}/take-out", (string key, [FromForm] IFormCollection form, CaseStore store, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation) =>
            MarkAsync(key, form, k => k.TakeOut, "Your coach took something out.", store, keeper, time, cancellation));
        routes.MapPost("/case/{key}/put-back", (string key, [FromForm] IFormCollection form, CaseStore store, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation) =>
            MarkAsync(key, form, k => k.PutBack, "Your coach put something back.", store, keeper, time, cancellation));
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

    private static (MarkRows TakeOut, MarkRows PutBack) Marks<T>()
        where T : KeptRow
        => ((store, key, ids, now, cancellation) => store.TakeOutAsync<T>(key, ids, now, cancellation),
            (store, key, ids, _, cancellation) => store.PutBackAsync<T>(key, ids, cancellation));

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
        string key,
        IFormCollection form,
        Func<(MarkRows TakeOut, MarkRows PutBack), MarkRows> which,
        string why,
        CaseStore store,
        PlanKeeper keeper,
        TimeProvider time,
        CancellationToken cancellation)
    {
        if (!_kinds.TryGetValue(form["kind"].ToString(), out (MarkRows, MarkRows) marks) || IdList.Read(form["ids"]) is not { } ids)
        {
            return Results.BadRequest();
        }

        if (await which(marks)(store, key, ids, time.GetUtcNow().ToInstant(), cancellation) > 0)
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
