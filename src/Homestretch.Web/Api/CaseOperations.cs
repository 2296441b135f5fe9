using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files.Evidences;
using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Uploads;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.Api;

/// <summary>Cases: list, enter, get, remove, bring back, erase.</summary>
internal static class CaseOperations
{
    private const string Tag = "Cases";
    private const int UsualCases = 50;
    private const int MostCases = 500;

    // Where each part of a new case stands in the body, by the form field that the checks name.
    private static readonly ImmutableDictionary<string, string> _pointers = new Dictionary<string, string>
    {
        [Upload.CandidateField] = "/candidate",
        [Upload.DayField] = "/examDay",
        [Upload.FieldOf(FileRole.Exam)] = "/examFile",
        [Upload.FieldOf(FileRole.Evidence)] = "/evidence",
        [Upload.FieldOf(FileRole.FreeTime)] = "/freeTime",
        [Upload.FieldOf(FileRole.Busy)] = "/busy",
        [Upload.FieldOf(FileRole.Cohort)] = "/cohort",
        [Upload.FieldOf(FileRole.ItemBank)] = "/itemBank",
        [Upload.FieldOf(FileRole.StudyLog)] = "/studyLog",
    }.ToImmutableDictionary();

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/cases", ListAsync).Produces<CaseList>()
            .Says(Tag, "listCases", "Lists the cases that are kept, newest first; removed ones where removed=true.", [400], query: "?limit=20");
        api.MapPost("/cases", EnterAsync).Accepts<NewCase>(ApiJson.MediaType).Produces<CaseFields>(201)
            .Says(Tag, "enterCase", "Enters a case: an exam by key or as a file, evidence as files or rows, free time, and what else there is.", [400, 404, 413, 415, 422], "-X POST -H 'Content-Type: application/json' -d @case.json");
        api.MapGet("/cases/{key}", GetAsync).Produces<CaseFields>().Produces(304)
            .Says(Tag, "getCase", "A case, and its state as ETag.", [404]);
        api.MapDelete("/cases/{key}", RemoveAsync).Produces(204)
            .Says(Tag, "removeCase", "Removes a case; it can be brought back for 30 days.", [404, 412], "-X DELETE");
        api.MapPost("/cases/{key}/restore", RestoreAsync).Accepts<object>(ApiJson.MediaType).Produces(204)
            .Says(Tag, "restoreCase", "Brings a removed case back. The body is {}.", [404, 415], "-X POST -H 'Content-Type: application/json' -d '{}'");
        api.MapPost("/cases/{key}/erase", EraseAsync).Accepts<Sure>(ApiJson.MediaType).Produces(204)
            .Says(
                Tag, "erasePerson", "Erases a person for good: the case, further cases of the same name for the same exam, and rows of that name in other cases of the exam. This cannot be undone.", [400, 404, 413, 415, 422],
                "-X POST -H 'Content-Type: application/json' -d '{\"sure\": true}'");
    }

    private static async Task<IResult> ListAsync(CaseStore store, CancellationToken cancellation, int offset = 0, int limit = UsualCases, bool removed = false)
    {
        if (offset < 0 || limit is < 1 or > MostCases)
        {
            return ApiProblem.Of(StatusCodes.Status400BadRequest, "The query cannot be used.", offset < 0
                ? new ApiError("offset is a whole number from 0.", Field: "offset", Value: offset.ToString(CultureInfo.InvariantCulture))
                : new ApiError($"limit is a whole number from 1 to {MostCases}.", Field: "limit", Value: limit.ToString(CultureInfo.InvariantCulture)));
        }

        IReadOnlyList<CaseSummary> all = removed ? await store.ListRemovedAsync(cancellation) : await store.ListAsync(cancellation);
        return Results.Json(
            new CaseList(all.Count, offset, [.. all.Skip(offset).Take(limit).Select(c => new CaseLine(
                c.Key, c.Candidate, c.ExamName, LocalDatePattern.Iso.Format(c.ExamDay), CaseFields.Time(c.CreatedAt), c.RemovedAt is { } at ? CaseFields.Time(at) : null))]),
            ApiJson.Options);
    }

    private static async Task<IResult> EnterAsync(HttpContext context, CaseStore store, PlanKeeper keeper, TimeProvider time)
    {
        CancellationToken cancellation = context.RequestAborted;
        (NewCase? asked, ApiProblem? problem) = await ApiBody.ReadAsync<NewCase>(context);
        if (asked is null)
        {
            return problem!;
        }

        List<ApiError> errors = [];
        List<NamedFile> files = await FilesAsync(asked, store, errors, cancellation);
        if (errors.Count > 0)
        {
            return ApiProblem.Unusable(errors);
        }

        Instant now = time.GetUtcNow().ToInstant();
        if (Upload.Check(new Draft(asked.Candidate ?? "", asked.ExamDay, [.. files]), now, out ImmutableArray<UploadProblem> problems) is not { } added)
        {
            return ApiProblem.Unusable(problems.Select(p => p.In is { } inFile ? ApiProblem.Errors([inFile], "/evidenceRows").First() : new ApiError(p.Text, At: _pointers[p.Field])));
        }

        await store.AddAsync(added, cancellation);
        await keeper.RefreshAsync(added.Key, "Your first plan.", cancellation);
        return await store.FindAsync(added.Key, cancellation) is { } stored
            ? Results.Json(CaseFields.Of(stored), ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, $"{ApiRoutes.Root}/cases/{added.Key}")
            : ApiProblem.NoCase(added.Key);
    }

    private static async Task<List<NamedFile>> FilesAsync(NewCase asked, CaseStore store, List<ApiError> errors, CancellationToken cancellation)
    {
        List<NamedFile> files = [];
        if (await ChosenExamAsync(asked.Exam, asked.ExamFile, store, errors, cancellation) is { } version)
        {
            files.Add(new(FileRole.Exam, version.Name, version.Content));
        }

        void Take(FileRole role, NewFile? file, string pointer)
        {
            if (file?.Read(role, pointer, errors) is { } read)
            {
                files.Add(read);
            }
        }

        void TakeAll(FileRole role, ImmutableArray<NewFile>? several, string pointer)
        {
            foreach ((int i, NewFile file) in (several ?? []).Index())
            {
                Take(role, file, string.Create(CultureInfo.InvariantCulture, $"{pointer}/{i}"));
            }
        }

        Take(FileRole.Exam, asked.ExamFile, "/examFile");
        TakeAll(FileRole.Evidence, asked.Evidence, "/evidence");
        if (asked.EvidenceRows is { Length: > 0 } rows)
        {
            if (string.IsNullOrWhiteSpace(asked.Candidate) && rows.Any(r => r.Candidate is null))
            {
                errors.Add(new("Rows without a candidate need the candidate of the case.", At: "/candidate"));
            }

            files.Add(new(FileRole.Evidence, RowText.FileName, RowText.Of(EvidenceFile.Cells, rows.Select(r => (IReadOnlyList<string>)r.InOrder(asked.Candidate ?? "")))));
        }

        Take(FileRole.FreeTime, asked.FreeTime, "/freeTime");
        Take(FileRole.Busy, asked.Busy, "/busy");
        TakeAll(FileRole.Cohort, asked.Cohort, "/cohort");
        Take(FileRole.ItemBank, asked.ItemBank, "/itemBank");
        TakeAll(FileRole.StudyLog, asked.StudyLog, "/studyLog");
        return files;
    }

    /// <summary>The version that counts of an exam given by key, instead of which there may be a file; null, with what is wrong where something is, otherwise.</summary>
    internal static async Task<StoredExamVersion?> ChosenExamAsync(string? key, NewFile? file, CaseStore store, List<ApiError> errors, CancellationToken cancellation)
    {
        if (key is null == file is null)
        {
            errors.Add(new("Give either exam, the key of an exam that is kept, or examFile.", At: "/exam"));
            return null;
        }

        StoredExamVersion? version = key is null ? null : await store.CurrentVersionAsync(key, cancellation);
        if (key is not null && version is null)
        {
            errors.Add(new("No exam of this key is kept; GET /api/v1/exams lists those that are.", At: "/exam", Value: key));
        }

        return version;
    }

    private static async Task<IResult> GetAsync(string key, HttpContext context, CaseStore store)
        => await ApiState.SeenAsync(context, store, key) is { } done ? done
            : await store.FindAsync(key, context.RequestAborted) is { } stored ? Results.Json(CaseFields.Of(stored), ApiJson.Options)
            : ApiProblem.NoCase(key);

    private static async Task<IResult> RemoveAsync(string key, HttpContext context, CaseStore store, TimeProvider time)
        => await ApiState.ChangedAsync(context, store, key) is { } problem ? problem
            : await store.RemoveAsync(key, time.GetUtcNow().ToInstant(), context.RequestAborted) ? Results.NoContent()
            : ApiProblem.NoCase(key);

    private static async Task<IResult> RestoreAsync(string key, HttpContext context, CaseStore store)
        => ApiBody.WrongType(context.Request, ApiJson.MediaType) is { } wrong ? wrong
            : await store.RestoreAsync(key, context.RequestAborted) ? Results.NoContent()
            : ApiProblem.Of(StatusCodes.Status404NotFound, $"There is no removed case '{key}'.");

    private static async Task<IResult> EraseAsync(string key, HttpContext context, CaseStore store)
    {
        (Sure? sure, ApiProblem? problem) = await ApiBody.ReadAsync<Sure>(context);
        return sure is null ? problem!
            : !sure.IsSure ? ApiProblem.Unusable(new ApiError("sure must be true: this cannot be undone.", At: "/sure", Value: "false"))
            : await store.ErasePersonAsync(key, context.RequestAborted) ? Results.NoContent()
            : ApiProblem.Of(StatusCodes.Status404NotFound, $"There is no case '{key}'.");
    }

    /// <summary>Names the address of what was made.</summary>
    internal static IResult At(this IResult result, HttpContext context, string address)
    {
        context.Response.Headers.Location = address;
        return result;
    }
}
