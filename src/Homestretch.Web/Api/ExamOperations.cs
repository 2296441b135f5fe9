using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Files.QuizItems;
using Homestretch.Files.Resources;
using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Exams;
using Homestretch.Web.Uploads;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Api;

/// <summary>Exams, the versions of their files, and what there is to study from.</summary>
internal static class ExamOperations
{
    private const string Tag = "Exams";
    private const string PostYaml = "-X POST -H 'Content-Type: application/yaml' --data-binary @exam.yaml";

    private static readonly string[] _itemTypes = [ApiBody.Csv, ApiBody.Xlsx, ApiBody.Zip, "application/xml"];

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/exams", async (CaseStore store, CancellationToken cancellation) =>
            Results.Json(new ExamList([.. (await store.ListExamsAsync(cancellation)).Select(e => new ExamLine(e.Key, e.Name, e.Cases, CaseFields.Time(e.ChangedAt)))]), ApiJson.Options))
            .Produces<ExamList>().Says(Tag, "listExams", "The exams that are kept, by name.", []);
        api.MapPost("/exams", AddAsync).Accepts<string>(ApiBody.Yaml).Produces<ExamFields>(201)
            .Says(Tag, "addExam", "Keeps an exam for which nobody prepares yet. The body is an exam file.", [413, 415, 422], PostYaml);
        api.MapGet("/exams/{key}", async (string key, HttpContext context, CaseStore store) =>
            await store.FindExamAsync(key, context.RequestAborted) is { } exam ? Results.Json(ExamFields.Of(exam), ApiJson.Options) : ApiProblem.NoExam(key))
            .Produces<ExamFields>().Says(Tag, "getExam", "An exam with the versions of its file, and the files to study from.", [404]);
        api.MapGet("/exams/{key}/file", async (string key, HttpContext context, CaseStore store) =>
            await store.CurrentVersionAsync(key, context.RequestAborted) is { } version ? Results.Bytes(version.Content, ApiBody.Yaml) : ApiProblem.NoExam(key))
            .Produces<string>(200, ApiBody.Yaml).Says(Tag, "getExamFile", "The exam file that counts, as it came.", [404]);
        api.MapGet("/exams/{key}/document", async (string key, HttpContext context, CaseStore store) =>
        {
            (Exam? exam, ApiProblem? problem) = await ReadAsync(key, store, context.RequestAborted);
            return exam is null ? problem! : DocumentOperations.Written(DocumentJson.Write(ExamDocument.Of(exam)));
        }).Produces<ExamDocument>().Says(Tag, "getBlueprint", "What the exam file says.", [404, 409]);
        api.MapPost("/exams/{key}/versions", AddVersionAsync).Accepts<string>(ApiBody.Yaml).Produces<ExamFields>().Produces<ExamFields>(201)
            .Says(Tag, "addExamVersion", "Keeps a new version of the exam file, which counts from now on for every case of the exam; refused where a case could no longer be read with it. The file that counts already changes nothing (200).", [404, 409, 413, 415, 422], PostYaml);
        api.MapPost("/exams/{key}/resources", (string key, HttpContext context, CaseStore store, TimeProvider time) =>
            AddFileAsync(key, ExamFileRole.Resources, [ApiBody.Csv, ApiBody.Xlsx], context, store, time, (exam, _, name, bytes) => ResourceFile.Parse(name, bytes, exam).Problems))
            .Accepts<string>(ApiBody.Csv, ApiBody.Xlsx).Produces<ExamFields>(201)
            .Says(Tag, "addResources", "Keeps a catalogue of resources for an exam; the latest counts.", [404, 409, 413, 415, 422], "-X POST -H 'Content-Type: text/csv' --data-binary @resources.csv");
        api.MapPost("/exams/{key}/quiz-items", (string key, HttpContext context, CaseStore store, TimeProvider time) =>
            AddFileAsync(key, ExamFileRole.QuizItems, _itemTypes, context, store, time, (exam, before, name, bytes) => QuizItemFile.ParseAll([.. before, (name, bytes)], exam).Problems))
            .Accepts<string>(ApiBody.Csv, _itemTypes[1..]).Produces<ExamFields>(201)
            .Says(Tag, "addQuizItems", "Keeps items to practise on: a sheet, a QTI item or a QTI package. All files count.", [404, 409, 413, 415, 422], "-X POST -H 'Content-Type: text/csv' --data-binary @quiz-items.csv");
        api.MapGet("/exams/{key}/quiz-items", QuizItemsAsync).Produces<QuizItemsDocument>()
            .Says(Tag, "getQuizItems", "The items to practise on.", [404, 409]);
        api.MapGet("/exams/{key}/files/{id}", async (string key, long id, HttpContext context, CaseStore store) =>
            (await store.FindExamAsync(key, context.RequestAborted))?.Files.FirstOrDefault(f => f.Id == id) is { } file
                ? Results.File(file.Content, "application/octet-stream", file.Name)
                : ApiProblem.Of(StatusCodes.Status404NotFound, string.Create(CultureInfo.InvariantCulture, $"The exam '{key}' has no file {id}.")))
            .Produces<string>(200, "application/octet-stream").Says(Tag, "getStudyFile", "A file to study from, as it came.", [400, 404]);
        MapMark(api, "take-out", "takeOutStudyFiles", "Takes files to study from out by number.", now => now);
        MapMark(api, "put-back", "putBackStudyFiles", "Puts files to study from back.", _ => null);
    }

    private static void MapMark(RouteGroupBuilder api, string path, string name, string says, Func<Instant, Instant?> removedAt)
        => api.MapPost($"/exams/{{key}}/files/{path}", async (string key, HttpContext context, CaseStore store, TimeProvider time) =>
        {
            (RowIds? asked, ApiProblem? problem) = await ApiBody.ReadAsync<RowIds>(context);
            return asked is null ? problem!
                : await store.CurrentVersionAsync(key, context.RequestAborted) is null ? ApiProblem.NoExam(key)
                : Results.Json(new ChangedRows(await store.MarkExamFilesAsync(key, asked.Ids.IsDefault ? [] : asked.Ids, removedAt(time.GetUtcNow().ToInstant()), context.RequestAborted)), ApiJson.Options);
        }).Accepts<RowIds>(ApiJson.MediaType).Produces<ChangedRows>().Says(Tag, name, says, [400, 404, 413, 415], "-X POST -H 'Content-Type: application/json' -d '{\"ids\": [1]}'");

    private static async Task<IResult> AddAsync(HttpContext context, CaseStore store, TimeProvider time)
    {
        (NamedFile? file, Exam? read, ApiProblem? problem) = await BodyAsync(context);
        if (file is null || read is null)
        {
            return problem!;
        }

        StoredExam exam = new()
        {
            Key = Upload.NewExamKey(),
            Name = read.Name,
            Versions = [new StoredExamVersion { At = time.GetUtcNow().ToInstant(), Name = file.Name, Content = file.Content.ToArray() }],
        };
        await store.AddExamAsync(exam, context.RequestAborted);
        return await AddedAsync(exam.Key, context, store);
    }

    private static async Task<IResult> AddVersionAsync(string key, HttpContext context, CaseStore store, ExamVersions versions, TimeProvider time)
    {
        (NamedFile? file, Exam? read, ApiProblem? problem) = await BodyAsync(context);
        if (file is null || read is null)
        {
            return problem!;
        }

        if (await store.FindExamAsync(key, context.RequestAborted) is not { } stored)
        {
            return ApiProblem.NoExam(key);
        }

        if (ExamVersions.IsCurrent(stored, file.Content.Span))
        {
            return Results.Json(ExamFields.Of(stored), ApiJson.Options);
        }

        StoredExamVersion version = new() { At = time.GetUtcNow().ToInstant(), Name = file.Name, Content = file.Content.ToArray() };
        ImmutableArray<ExamRefusal> refused = await versions.KeepAsync(stored, version, read, context.RequestAborted);
        return refused.IsEmpty
            ? await AddedAsync(key, context, store)
            : ApiProblem.Of(
                StatusCodes.Status409Conflict,
                $"Nothing was changed. This version {ExamRefusal.Why}. {ExamRefusal.Instead}",
                refused.Select(r => new ApiError($"In the case '{r.CaseKey}': {r}")));
    }

    private static async Task<IResult> AddFileAsync(
        string key,
        ExamFileRole role,
        string[] types,
        HttpContext context,
        CaseStore store,
        TimeProvider time,
        Func<Exam, IEnumerable<(string Name, ReadOnlyMemory<byte> Bytes)>, string, ReadOnlyMemory<byte>, ImmutableArray<FileProblem>> check)
    {
        if (ApiBody.WrongType(context.Request, types) is { } wrong)
        {
            return wrong;
        }

        (byte[]? bytes, ApiProblem? problem) = await ApiBody.BytesAsync(context);
        if (bytes is null)
        {
            return problem!;
        }

        (Exam? exam, ApiProblem? unread) = await ReadAsync(key, store, context.RequestAborted);
        if (exam is null)
        {
            return unread!;
        }

        string name = RowOperations.FileName(context, "body" + Ending(ApiBody.TypeOf(context.Request)));
        if (check(exam, await FilesAsync(key, role, store, context.RequestAborted), name, bytes) is { IsDefaultOrEmpty: false } problems)
        {
            return ApiProblem.Unusable(ApiProblem.Errors(problems));
        }

        await store.KeepExamFilesAsync(key, [new StoredExamFile { At = time.GetUtcNow().ToInstant(), Role = role, Name = name, Content = bytes }], context.RequestAborted);
        return await AddedAsync(key, context, store);
    }

    private static async Task<IResult> QuizItemsAsync(string key, HttpContext context, CaseStore store)
    {
        (Exam? exam, ApiProblem? problem) = await ReadAsync(key, store, context.RequestAborted);
        if (exam is null)
        {
            return problem!;
        }

        (string, ReadOnlyMemory<byte>)[] files = [.. await FilesAsync(key, ExamFileRole.QuizItems, store, context.RequestAborted)];
        ReadResult<QuizItemSet> read = files.Length == 0 ? ReadResult<QuizItemSet>.Ok(new QuizItemSet([], [], [])) : QuizItemFile.ParseAll(files, exam);
        return read.Value is { } set
            ? DocumentOperations.Written(DocumentJson.Write(QuizItemsDocument.Of(exam, set)))
            : ApiProblem.Of(StatusCodes.Status409Conflict, "The items can no longer be read with this exam's file.", ApiProblem.Errors(read.Problems));
    }

    private static async Task<IEnumerable<(string Name, ReadOnlyMemory<byte> Bytes)>> FilesAsync(string key, ExamFileRole role, CaseStore store, CancellationToken cancellation)
        => (await store.ExamFilesAsync(key, role, cancellation)).Select(f => (f.Name, (ReadOnlyMemory<byte>)f.Content));

    private static async Task<IResult> AddedAsync(string key, HttpContext context, CaseStore store)
        => await store.FindExamAsync(key, context.RequestAborted) is { } kept
            ? Results.Json(ExamFields.Of(kept), ApiJson.Options, statusCode: StatusCodes.Status201Created).At(context, $"{ApiRoutes.Root}/exams/{key}")
            : ApiProblem.NoExam(key);

    private static async Task<(NamedFile? File, Exam? Read, ApiProblem? Problem)> BodyAsync(HttpContext context)
    {
        if (ApiBody.WrongType(context.Request, ApiBody.Yaml) is { } wrong)
        {
            return (null, null, wrong);
        }

        (byte[]? bytes, ApiProblem? problem) = await ApiBody.BytesAsync(context);
        if (bytes is null)
        {
            return (null, null, problem);
        }

        NamedFile file = new(FileRole.Exam, RowOperations.FileName(context, "body.yaml"), bytes);
        ReadResult<Exam> read = CaseReader.Exam(file);
        return read.Value is { } exam ? (file, exam, null) : (null, null, ApiProblem.Unusable(ApiProblem.Errors(read.Problems)));
    }

    private static async Task<(Exam? Exam, ApiProblem? Problem)> ReadAsync(string key, CaseStore store, CancellationToken cancellation)
    {
        if (await store.CurrentVersionAsync(key, cancellation) is not { } version)
        {
            return (null, ApiProblem.NoExam(key));
        }

        ReadResult<Exam> read = ExamLibrary.Read(version);
        return read.Value is { } exam ? (exam, null) : (null, ApiProblem.Of(StatusCodes.Status409Conflict, "The exam's file can no longer be read.", ApiProblem.Errors(read.Problems)));
    }

    private static string Ending(string type) => type switch
    {
        ApiBody.Csv => ".csv",
        ApiBody.Xlsx => ".xlsx",
        ApiBody.Zip => ".zip",
        _ => ".xml",
    };
}
