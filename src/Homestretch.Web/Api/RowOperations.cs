using System.Collections.Immutable;

using Homestretch.Files;
using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;
using Homestretch.Files.StudyLogs;
using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Keeping;
using Homestretch.Web.Uploads;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Api;

/// <summary>Rows of a case: test results and study sessions. Listed, added, taken out, put back; after each change the plan is made anew.</summary>
internal static class RowOperations
{
    public static void Map(RouteGroupBuilder api)
    {
        Map(
            api, "evidence", "Evidence", "test results", FileRole.Evidence, EvidenceFile.Cells, c => c.Evidence, EvidenceCells.Of, (EvidenceCells cells, string person) => cells.InOrder(person),
            """{"rows": [{"attempt": "quiz 2", "kind": "quiz", "date": "2026-12-02", "topic": "Cataloguing", "correct": 7, "items": 10}]}""");
        Map(
            api, "sessions", "Study", "study", FileRole.StudyLog, StudyLogFile.Cells, c => c.Sessions, StudyCells.Of, (StudyCells cells, string person) => cells.InOrder(person),
            """{"rows": [{"date": "2026-12-02", "topic": "Cataloguing", "minutes": 50, "how": "learn"}]}""");
    }

    /// <summary>Taking out and putting back, for one kind of rows.</summary>
    internal static void MapMarks<TRow>(RouteGroupBuilder api, string path, string tag, string what, string name)
        where TRow : KeptRow
        => MapMarks(
            api, path, tag, what, name, [400, 404, 412, 413, 415],
            async (context, key, ids, removedAt) => (await context.RequestServices.GetRequiredService<CaseStore>().MarkAsync<TRow>(key, ids, removedAt, context.RequestAborted), []));

    /// <summary>Taking out and putting back, for rows that hang together.</summary>
    /// <param name="api">Where it is mapped.</param>
    /// <param name="path">The rows' part of the address.</param>
    /// <param name="tag">What it is about.</param>
    /// <param name="what">The rows, in words.</param>
    /// <param name="name">The end of the operations' names.</param>
    /// <param name="statuses">Statuses of its problems.</param>
    /// <param name="mark">Does it, with the moment of taking out, or null to put back; returns how many rows, or what stands in the way.</param>
    internal static void MapMarks(
        RouteGroupBuilder api,
        string path,
        string tag,
        string what,
        string name,
        int[] statuses,
        Func<HttpContext, string, IReadOnlyCollection<long>, Instant?, Task<(int Changed, ImmutableArray<FileProblem> Problems)>> mark)
    {
        const string Example = "-X POST -H 'Content-Type: application/json' -d '{\"ids\": [1, 2]}'";
        api.MapPost($"/cases/{{key}}/{path}/take-out", (string key, HttpContext context, CaseStore store, PlanKeeper keeper, TimeProvider time) =>
            MarkAsync(key, context, store, keeper, "Your coach took something out.", ids => mark(context, key, ids, time.GetUtcNow().ToInstant())))
            .Accepts<RowIds>(ApiJson.MediaType).Produces<ChangedRows>()
            .Says(tag, "takeOut" + name, $"Takes {what} out by number, so that they no longer count.", statuses, Example);
        api.MapPost($"/cases/{{key}}/{path}/put-back", (string key, HttpContext context, CaseStore store, PlanKeeper keeper) =>
            MarkAsync(key, context, store, keeper, "Your coach put something back.", ids => mark(context, key, ids, null)))
            .Accepts<RowIds>(ApiJson.MediaType).Produces<ChangedRows>()
            .Says(tag, "putBack" + name, $"Puts {what} back that were taken out.", statuses, Example);
    }

    /// <summary>Listing one kind of rows.</summary>
    /// <param name="api">Where it is mapped.</param>
    /// <param name="path">The rows' part of the address.</param>
    /// <param name="tag">What it is about.</param>
    /// <param name="what">The rows, in words.</param>
    /// <param name="name">The end of the operation's name.</param>
    /// <param name="rows">The rows of a case.</param>
    /// <param name="cells">The fields of a row.</param>
    internal static void MapList<TRow, TCells>(RouteGroupBuilder api, string path, string tag, string what, string name, Func<StoredCase, IEnumerable<TRow>> rows, Func<TRow, TCells> cells)
        where TRow : KeptRow
        => api.MapGet($"/cases/{{key}}/{path}", async (string key, HttpContext context, CaseStore store, bool all = false) =>
        {
            if (await ApiState.SeenAsync(context, store, key) is { } done)
            {
                return done;
            }

            return await (all ? store.FindWholeAsync(key, context.RequestAborted) : store.FindAsync(key, context.RequestAborted)) is { } stored
                ? Results.Json(new KeptRowList<TCells>([.. rows(stored).Select(r => KeptRowFields<TCells>.Of(r, cells(r)))]), ApiJson.Options)
                : ApiProblem.NoCase(key);
        }).Produces<KeptRowList<TCells>>().Produces(304).Says(tag, "list" + name, $"The {what} of a case in the order they came; with all=true those taken out, too.", [400, 404]);

    private static void Map<TRow, TCells>(
        RouteGroupBuilder api, string path, string name, string what, FileRole role, SheetCells sheet, Func<StoredCase, IEnumerable<TRow>> rows, Func<TRow, TCells> cells, Func<TCells, string, ImmutableArray<string>> inOrder, string example)
        where TRow : KeptRow
    {
        MapList(api, path, name, what, name, rows, cells);
        api.MapPost($"/cases/{{key}}/{path}", async (string key, HttpContext context, CaseStore store, PlanKeeper keeper, TimeProvider time) =>
        {
            if (await ApiState.ChangedAsync(context, store, key) is { } stale)
            {
                return stale;
            }

            if (await store.FindAsync(key, context.RequestAborted) is not { } stored)
            {
                return ApiProblem.NoCase(key);
            }

            (NamedFile? file, ApiProblem? problem) = await FileAsync<TCells>(context, role, sheet, c => inOrder(c, stored.Candidate));
            if (file is null)
            {
                return problem!;
            }

            if (KeptRoutes.Problems(stored, [file]) is { IsEmpty: false } problems)
            {
                return ApiProblem.Unusable(ApiProblem.Errors(problems));
            }

            Instant now = time.GetUtcNow().ToInstant();
            KeptRow[] added = [.. KeptRows.Of(role, file.Name, file.Content, now)];
            await store.KeepAsync(key, added, context.RequestAborted);
            await keeper.RefreshAsync(key, $"Your coach added {what}.", context.RequestAborted);
            return Results.Json(new RowIds([.. added.Select(r => r.Id)]), ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, $"{ApiRoutes.Root}/cases/{key}/{path}");
        }).Accepts<NewRows<TCells>>(ApiJson.MediaType, ApiBody.Csv, ApiBody.Xlsx).Produces<RowIds>(201)
            .Says(name, "add" + name, $"Adds {what}, all or none: rows as JSON, or a file of the same columns as CSV or .xlsx.", [400, 404, 412, 413, 415, 422], $"-X POST -H 'Content-Type: application/json' -d '{example}'");
        MapMarks<TRow>(api, path, name, what, name);
    }

    private static async Task<(NamedFile? File, ApiProblem? Problem)> FileAsync<TCells>(HttpContext context, FileRole role, SheetCells sheet, Func<TCells, ImmutableArray<string>> inOrder)
    {
        if (ApiBody.WrongType(context.Request, ApiJson.MediaType, ApiBody.Csv, ApiBody.Xlsx) is { } wrong)
        {
            return (null, wrong);
        }

        if (ApiBody.TypeOf(context.Request) == ApiJson.MediaType)
        {
            (NewRows<TCells>? rows, ApiProblem? problem) = await ApiBody.ReadAsync<NewRows<TCells>>(context);
            return rows is null ? (null, problem)
                : rows.Rows.IsDefaultOrEmpty ? (null, ApiProblem.Unusable(new ApiError("Give at least one row.", At: "/rows")))
                : (new(role, RowText.FileName, RowText.Of(sheet, rows.Rows.Select(r => (IReadOnlyList<string>)inOrder(r)))), null);
        }

        (byte[]? bytes, ApiProblem? tooLarge) = await ApiBody.BytesAsync(context);
        return bytes is null ? (null, tooLarge) : (new(role, FileName(context, ApiBody.TypeOf(context.Request) == ApiBody.Csv ? "body.csv" : "body.xlsx"), bytes), null);
    }

    /// <summary>The name of a file that is the whole body: the query's <c>name</c>, or a plain one.</summary>
    internal static string FileName(HttpContext context, string plain)
        => context.Request.Query["name"].ToString() is { Length: > 0 } name ? Upload.FileName(name) : plain;

    private static async Task<IResult> MarkAsync(string key, HttpContext context, CaseStore store, PlanKeeper keeper, string why, Func<IReadOnlyCollection<long>, Task<(int Changed, ImmutableArray<FileProblem> Problems)>> mark)
    {
        if (await ApiState.ChangedAsync(context, store, key) is { } stale)
        {
            return stale;
        }

        (RowIds? asked, ApiProblem? problem) = await ApiBody.ReadAsync<RowIds>(context);
        if (asked is null)
        {
            return problem!;
        }

        (int changed, ImmutableArray<FileProblem> problems) = await mark(asked.Ids.IsDefault ? [] : asked.Ids);
        if (!problems.IsEmpty)
        {
            return ApiProblem.Of(StatusCodes.Status409Conflict, "Nothing was changed: the words of the case could no longer be read.", ApiProblem.Errors(problems));
        }

        if (changed > 0)
        {
            await keeper.RefreshAsync(key, why, context.RequestAborted);
        }

        return Results.Json(new ChangedRows(changed), ApiJson.Options);
    }
}
