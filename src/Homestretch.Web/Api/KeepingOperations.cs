using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Words;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.WordLists;
using Homestretch.Store;
using Homestretch.Web.Assuming;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Keeping;
using Homestretch.Web.WordPractice;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.Api;

/// <summary>What else is kept of a case: decisions, plans, files, words, the personal link.</summary>
internal static class KeepingOperations
{
    private const int MostMinutes = 240;

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/cases/{key}/decisions", DecisionsAsync).Produces<KeptRowList<DecisionLine>>()
            .Says("Decisions", "listDecisions", "What was decided, oldest first.", [404]);
        api.MapPost("/cases/{key}/decisions", DecideAsync).Accepts<NewDecision>(ApiJson.MediaType).Produces<RowIds>(201)
            .Says("Decisions", "addDecision", "Keeps a decision with the figures of this moment; it may move the exam day.", [400, 404, 409, 412, 413, 415, 422], "-X POST -H 'Content-Type: application/json' -d '{\"text\": \"Sit as planned.\"}'");
        RowOperations.MapMarks<Decision>(api, "decisions", "Decisions", "decisions", "Decisions");
        api.MapGet("/cases/{key}/plans", PlansAsync).Produces<PlanList>()
            .Says("Plans", "listPlans", "Every plan that was kept, oldest first, with why it was made.", [404]);
        api.MapGet("/cases/{key}/plans/{id}", PlanAsync).Produces<PlanDocument>()
            .Says("Plans", "getKeptPlan", "A plan as it was kept.", [400, 404]);
        api.MapGet("/cases/{key}/files", FilesAsync).Produces<ImmutableArray<KeptFile>>()
            .Says("Files", "listFiles", "Files of a case that are kept as they came, taken out or not, oldest first.", [404]);
        api.MapPost("/cases/{key}/files", AddFileAsync).Accepts<NewCaseFile>(ApiJson.MediaType).Produces<RowIds>(201)
            .Says(
                "Files", "addFile", "Adds free time, busy times, a cohort or an item bank to a case.", [400, 404, 412, 413, 415, 422],
                "-X POST -H 'Content-Type: application/json' -d '{\"role\": \"free-time\", \"file\": {\"name\": \"free.yaml\", \"text\": \"zone: Europe/London\\nweekly:\\n  - day: Saturday\\n    from: 10:00\\n    to: 12:00\\n\"}}'");
        RowOperations.MapMarks<StoredFile>(api, "files", "Files", "files", "Files");
        api.MapGet("/cases/{key}/words", WordsAsync).Produces<WordsDocument>()
            .Says("Words", "getWords", "The words of a case: which to recall today, and the chance to know each on exam day.", [400, 404, 409], query: "?minutes=5");
        api.MapGet("/cases/{key}/words.csv", WordFileAsync).Produces<string>(200, ApiBody.Csv)
            .Says("Words", "getWordFile", "The words of a case with their recalls, as a words file.", [404]);
        api.MapPost("/cases/{key}/words", AddWordsAsync).Accepts<string>(ApiBody.Csv, ApiBody.Xlsx).Produces<RowIds>(201)
            .Says("Words", "addWords", "Adds the words of a words file, and the recalls in it. Of several rows of one term the latest counts.", [404, 409, 413, 415, 422], "-X POST -H 'Content-Type: text/csv' --data-binary @words.csv");
        RowOperations.MapMarks(
            api, "words", "Words", "words", "Words", [400, 404, 409, 412, 413, 415],
            (context, key, ids, removedAt) => context.RequestServices.GetRequiredService<WordShelf>().MarkAsync<WordRow>(key, ids, removedAt, context.RequestAborted));
        api.MapPut("/cases/{key}/link", LinkAsync).Produces<NewLink>(201)
            .Says("Link", "makeLink", "Makes a personal link for the candidate. One that opened before no longer does.", [404], "-X PUT");
        api.MapDelete("/cases/{key}/link", RevokeAsync).Produces(204)
            .Says("Link", "revokeLink", "Revokes the personal link.", [404], "-X DELETE");
    }

    private static async Task<IResult> DecisionsAsync(string key, HttpContext context, CaseStore store)
        => await store.FindAsync(key, context.RequestAborted) is { } stored
            ? Results.Json(
                new KeptRowList<DecisionLine>([.. stored.Decisions.Select(d => KeptRowFields<DecisionLine>.Of(d, new(d.Text, d.ExamDay is { } day ? LocalDatePattern.Iso.Format(day) : null)))]), ApiJson.Options)
            : ApiProblem.NoCase(key);

    private static async Task<IResult> DecideAsync(string key, HttpContext context, CaseLibrary library, Workbench bench, CaseStore store, PlanKeeper keeper, TimeProvider time)
    {
        if (await ApiState.ChangedAsync(context, store, key) is { } stale)
        {
            return stale;
        }

        (NewDecision? asked, ApiProblem? problem) = await ApiBody.ReadAsync<NewDecision>(context);
        if (asked is null)
        {
            return problem!;
        }

        (ReadCase? found, ApiProblem? unread) = await DocumentOperations.ReadAsync(key, context, library);
        if (found is null)
        {
            return unread!;
        }

        LocalDate today = library.Now(found).Date;
        string text = asked.Text.Trim();
        List<ApiError> errors = [];
        if (!DecisionEntry.IsText(text))
        {
            errors.Add(new(string.Create(CultureInfo.InvariantCulture, $"A decision has 1 to {DecisionEntry.MostLength} characters; this one has {text.Length}."), At: "/text"));
        }

        ParseResult<LocalDate>? day = asked.ExamDay is { } given ? LocalDatePattern.Iso.Parse(given) : null;
        if (day is not null && !(day.Success && DecisionEntry.IsDay(day.Value, today)))
        {
            errors.Add(new(
                $"The exam day is a date from {LocalDatePattern.Iso.Format(today)} to {LocalDatePattern.Iso.Format(PreparedCase.LastExamDayFrom(today))}, as year-month-day.", At: "/examDay", Value: asked.ExamDay));
        }

        if (errors.Count > 0)
        {
            return ApiProblem.Unusable(errors);
        }

        Decision decision = DecisionEntry.Of(await bench.OpenAsync(found, _ => null, context.RequestAborted), text, day?.Value, time.GetUtcNow().ToInstant());
        await store.KeepAsync(key, [decision], context.RequestAborted);
        await keeper.RefreshAsync(key, $"Decided: {decision.Text}", context.RequestAborted);
        return Results.Json(new RowIds([decision.Id]), ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, $"{ApiRoutes.Root}/cases/{key}/decisions");
    }

    private static async Task<IResult> PlansAsync(string key, HttpContext context, CaseStore store, PlanKeeper keeper)
        => await store.VersionAsync(key, context.RequestAborted) is null
            ? ApiProblem.NoCase(key)
            : Results.Json(
                new PlanList([.. (await keeper.PlansAsync(key, Instant.MinValue, context.RequestAborted)).Plans.Select(p => new PlanLine(p.Id, CaseFields.Time(p.At), p.Why, p.Document.ExamDay, p.Blocks.Length, p.WithPlan, p.WithoutStudy))]), ApiJson.Options);

    private static async Task<IResult> PlanAsync(string key, long id, HttpContext context, CaseStore store)
        => (await store.PlanIdsAsync(key, context.RequestAborted)).Contains(id) && await store.PlanAsync(id, context.RequestAborted) is { } plan
            ? DocumentOperations.Written(plan.Document)
            : ApiProblem.Of(StatusCodes.Status404NotFound, string.Create(CultureInfo.InvariantCulture, $"The case '{key}' has no plan {id}."));

    private static async Task<IResult> FilesAsync(string key, HttpContext context, CaseStore store)
        => await store.FindWholeAsync(key, context.RequestAborted) is { } stored
            ? Results.Json<ImmutableArray<KeptFile>>([.. stored.Files.Select(KeptFile.Of)], ApiJson.Options)
            : ApiProblem.NoCase(key);

    private static async Task<IResult> AddFileAsync(string key, HttpContext context, CaseStore store, PlanKeeper keeper, TimeProvider time)
    {
        if (await ApiState.ChangedAsync(context, store, key) is { } stale)
        {
            return stale;
        }

        (NewCaseFile? asked, ApiProblem? problem) = await ApiBody.ReadAsync<NewCaseFile>(context);
        if (asked is null)
        {
            return problem!;
        }

        FileRole[] roles = [FileRole.FreeTime, FileRole.Busy, FileRole.Cohort, FileRole.ItemBank];
        FileRole role = roles.FirstOrDefault(r => KeptFile.Word(r) == asked.Role, FileRole.Exam);
        List<ApiError> errors = [];
        if (role == FileRole.Exam)
        {
            errors.Add(new($"role is one of {string.Join(", ", roles.Select(KeptFile.Word))}.", At: "/role", Value: asked.Role));
        }

        if (asked.File.Read(role, "/file", errors) is not { } file || errors.Count > 0)
        {
            return ApiProblem.Unusable(errors);
        }

        if (await store.FindAsync(key, context.RequestAborted) is not { } stored)
        {
            return ApiProblem.NoCase(key);
        }

        if (KeptRoutes.Problems(stored, [file]) is { IsEmpty: false } problems)
        {
            return ApiProblem.Unusable(ApiProblem.Errors(problems));
        }

        KeptRow[] added = [.. KeptRows.Of(role, file.Name, file.Content, time.GetUtcNow().ToInstant())];
        await store.KeepAsync(key, added, context.RequestAborted);
        await keeper.RefreshAsync(key, $"Your coach added {file.Name}.", context.RequestAborted);
        return Results.Json(new RowIds([.. added.Select(r => r.Id)]), ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, $"{ApiRoutes.Root}/cases/{key}/files");
    }

    private static async Task<IResult> WordsAsync(string key, HttpContext context, CaseLibrary library, CaseStore store, int minutes = 5)
    {
        if (minutes is < 1 or > MostMinutes)
        {
            return ApiProblem.Of(StatusCodes.Status400BadRequest, "The query cannot be used.", new ApiError($"minutes is a whole number from 1 to {MostMinutes}.", Field: "minutes", Value: minutes.ToString(CultureInfo.InvariantCulture)));
        }

        if ((await library.FindAsync(key, context.RequestAborted))?.Value is not { IsDemo: false } found)
        {
            return ApiProblem.NoCase(key);
        }

        LocalDate today = library.Now(found).Date;
        if (today >= found.ExamDay)
        {
            return ApiProblem.Of(StatusCodes.Status409Conflict, "The exam day is not after today; there is no day left for words.");
        }

        (IReadOnlyList<WordRow> words, IReadOnlyList<RecallRow> recalls) = await store.WordsAsync(key, context.RequestAborted);
        ReadResult<WordList> list = words.Count == 0 ? ReadResult<WordList>.Ok(new WordList([])) : WordFile.ParseAll([("words", KeptRows.WordText(words, recalls))], found.Exam);
        return list.Value is { } read
            ? DocumentOperations.Written(DocumentJson.Write(WordsDocument.Of(found.Exam.Name, WordPlanner.Plan(read.Words, today, found.ExamDay, WordAssumptions.Default.Recalls(minutes)))))
            : ApiProblem.Of(StatusCodes.Status409Conflict, "The words of this case can no longer be read with its exam.", ApiProblem.Errors(list.Problems));
    }

    private static async Task<IResult> WordFileAsync(string key, HttpContext context, CaseStore store)
    {
        if (await store.VersionAsync(key, context.RequestAborted) is null)
        {
            return ApiProblem.NoCase(key);
        }

        (IReadOnlyList<WordRow> words, IReadOnlyList<RecallRow> recalls) = await store.WordsAsync(key, context.RequestAborted);
        return Results.Bytes(KeptRows.WordText(words, recalls), ApiBody.Csv + "; charset=utf-8");
    }

    private static async Task<IResult> AddWordsAsync(string key, HttpContext context, CaseLibrary library, WordShelf shelf, TimeProvider time)
    {
        if (ApiBody.WrongType(context.Request, ApiBody.Csv, ApiBody.Xlsx) is { } wrong)
        {
            return wrong;
        }

        (byte[]? bytes, ApiProblem? problem) = await ApiBody.BytesAsync(context);
        if (bytes is null)
        {
            return problem!;
        }

        if ((await library.FindAsync(key, context.RequestAborted))?.Value is not { IsDemo: false } found)
        {
            return ApiProblem.NoCase(key);
        }

        string name = RowOperations.FileName(context, ApiBody.TypeOf(context.Request) == ApiBody.Csv ? "body.csv" : "body.xlsx");
        ReadResult<WordList> read = WordFile.ParseAll([(name, bytes)], found.Exam);
        KeptRow[] added = [.. KeptRows.Words(name, bytes, time.GetUtcNow().ToInstant()).Value ?? []];
        ImmutableArray<FileProblem> problems = read.IsOk ? await shelf.KeepAsync(found, name, added, context.RequestAborted) : read.Problems;
        if (!problems.IsEmpty)
        {
            return ApiProblem.Unusable(ApiProblem.Errors(problems));
        }

        return Results.Json(new RowIds([.. added.OfType<WordRow>().Select(r => r.Id)]), ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, $"{ApiRoutes.Root}/cases/{key}/words");
    }

    private static async Task<IResult> LinkAsync(string key, HttpContext context, CaseStore store, CandidateDoor door, TimeProvider time)
    {
        if (await PersonalRoutes.NewLinkAsync(store, key, time.GetUtcNow().ToInstant(), context.RequestAborted) is not { } token)
        {
            return ApiProblem.NoCase(key);
        }

        string start = door.Start(context.Request);
        NewLink link = new($"{start}/me/{token.Page}", $"{start}/feed/{token.Feed}.ics");
        return Results.Json(link, ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, link.Pages);
    }

    private static async Task<IResult> RevokeAsync(string key, HttpContext context, CaseStore store, TimeProvider time)
        => await PersonalRoutes.RevokeAllAsync(store, key, time.GetUtcNow().ToInstant(), context.RequestAborted) > 0
            ? Results.NoContent()
            : ApiProblem.Of(StatusCodes.Status404NotFound, $"There is no case '{key}' with a personal link.");
}
