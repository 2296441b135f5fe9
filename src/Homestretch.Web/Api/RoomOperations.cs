using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Importing;
using Homestretch.Web.Keeping;
using Homestretch.Web.Uploads;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Api;

/// <summary>A whole room from a sheet of candidates: looked at first, then imported, all or none.</summary>
internal static class RoomOperations
{
    private const string Tag = "Rooms";
    private const string PostRoom = "-X POST -H 'Content-Type: application/json' -d @room.json";

    // Where each part of a room stands in the body, by the form field that the checks name.
    private static readonly ImmutableDictionary<string, string> _pointers = new Dictionary<string, string>
    {
        [RoomImport.ExamKeyField] = "/exam",
        [Upload.FieldOf(FileRole.Exam)] = "/examFile",
        [RoomImport.SheetField] = "/sheet",
        [Upload.FieldOf(FileRole.Evidence)] = "/evidence",
        [RoomImport.ZoneField] = "/zone",
        [Upload.DayField] = "/examDay",
        [Upload.FieldOf(FileRole.Cohort)] = "/cohort",
        [Upload.FieldOf(FileRole.ItemBank)] = "/itemBank",
    }.ToImmutableDictionary();

    public static void Map(RouteGroupBuilder api)
    {
        api.MapPost("/candidates/preview", PreviewAsync).Accepts<NewRoom>(ApiJson.MediaType).Produces<RoomLook>()
            .Says(Tag, "previewRoom", "What an import of a room would do: every row of the candidates sheet as it was understood, and what is wrong with it. Changes nothing.", [400, 413, 415, 422], PostRoom);
        api.MapPost("/candidates/import", ImportAsync).Accepts<NewRoom>(ApiJson.MediaType).Produces<ImportedRoom>(201)
            .Says(
                Tag, "importRoom", "Makes a case of every row of a candidates sheet, or of the lines named: all of them, or none where anything stands in the way. Nobody is imported twice.", [400, 409, 413, 415, 422], PostRoom);
    }

    private static async Task<IResult> PreviewAsync(HttpContext context, CaseStore store, RoomImport import, TimeProvider time)
    {
        (_, _, RoomPreview? preview, ApiProblem? problem) = await LookAsync(context, store, import, time.GetUtcNow().ToInstant());
        return preview is null
            ? problem!
            : Results.Json(new RoomLook(preview.Exam.Name, preview.Ready.Length, [.. preview.People.Select(RoomLine.Of)], preview.NotInSheet), ApiJson.Options);
    }

    private static async Task<IResult> ImportAsync(HttpContext context, CaseStore store, RoomImport import, FirstPlans plans, TimeProvider time)
    {
        Instant now = time.GetUtcNow().ToInstant();
        (NewRoom? asked, RoomDraft? draft, RoomPreview? preview, ApiProblem? problem) = await LookAsync(context, store, import, now);
        if (asked is null || draft is null || preview is null)
        {
            return problem!;
        }

        List<ApiError> errors = [];
        RoomPerson[] chosen = [.. Chosen(asked, preview, errors)];
        errors.AddRange(chosen.SelectMany(RoomLine.ErrorsOf));
        if (errors.Count > 0)
        {
            return ApiProblem.Unusable(errors);
        }

        ImmutableArray<StoredCase> cases = RoomImport.Cases(draft, preview, chosen.Select(p => p.Id).ToHashSet(), now);
        if (await store.AddAllAsync(preview.Joins, cases, context.RequestAborted) is { Count: > 0 } twice)
        {
            return ApiProblem.Of(StatusCodes.Status409Conflict, "Nothing was imported: somebody else has just imported some of these people.", twice.Select(name => new ApiError("There is a case of this person for this exam by now.", At: "/sheet", Value: name)));
        }

        plans.Ask(cases.Select(c => c.Key));
        return Results.Json(
            new ImportedRoom(cases[0].ExamKey, [.. cases.Zip(chosen, (one, person) => new ImportedCase(one.Key, one.Candidate, person.Row.Line))]), ApiJson.Options, statusCode: StatusCodes.Status201Created)
            .At(context, $"{ApiRoutes.Root}/cases");
    }

    // The rows to import, in the order of the sheet.
    private static IEnumerable<RoomPerson> Chosen(NewRoom asked, RoomPreview preview, List<ApiError> errors)
    {
        if (asked.Lines is not { } lines)
        {
            return preview.People;
        }

        int[] known = [.. preview.People.Select(p => p.Row.Line)];
        errors.AddRange(lines.Index().Where(l => !known.Contains(l.Item)).Select(l => new ApiError(
            $"The sheet has no person in this line; it has people in lines {LinesText(known)}.",
            At: string.Create(CultureInfo.InvariantCulture, $"/lines/{l.Index}"),
            Value: l.Item.ToString(CultureInfo.InvariantCulture))));
        if (lines.IsEmpty)
        {
            errors.Add(new("Give at least one line of the sheet, or leave lines out for everybody.", At: "/lines"));
        }

        return preview.People.Where(p => lines.Contains(p.Row.Line));
    }

    private static string LinesText(IEnumerable<int> lines) => IdList.Write(lines.Select(l => (long)l)).Replace(",", ", ", StringComparison.Ordinal);

    private static async Task<(NewRoom? Asked, RoomDraft? Draft, RoomPreview? Preview, ApiProblem? Problem)> LookAsync(HttpContext context, CaseStore store, RoomImport import, Instant now)
    {
        (NewRoom? asked, ApiProblem? problem) = await ApiBody.ReadAsync<NewRoom>(context);
        if (asked is null)
        {
            return (null, null, null, problem);
        }

        List<ApiError> errors = [];
        await CaseOperations.ChosenExamAsync(asked.Exam, asked.ExamFile, store, errors, context.RequestAborted);
        NamedFile? sheet = asked.Sheet.Read(FileRole.Evidence, "/sheet", errors);
        List<NamedFile> files = [];
        foreach ((FileRole role, NewFile? file, string at) in Files(asked))
        {
            if (file?.Read(role, at, errors) is { } read)
            {
                files.Add(read);
            }
        }

        if (errors.Count > 0 || sheet is null)
        {
            return (null, null, null, ApiProblem.Unusable(errors));
        }

        RoomDraft draft = new(asked.Exam ?? "", (asked.Zone ?? "").Trim(), (asked.ExamDay ?? "").Trim(), new(sheet.Name, sheet.Content), [.. files]);
        (RoomPreview? preview, ImmutableArray<UploadProblem> problems) = await import.CheckAsync(draft, now, context.RequestAborted);
        return preview is null
            ? (null, null, null, ApiProblem.Unusable(problems.Select(p => p.In is { } inFile ? ApiProblem.Errors([inFile]).First() : new ApiError(p.Text, At: _pointers[p.Field]))))
            : (asked, draft, preview, null);
    }

    private static IEnumerable<(FileRole Role, NewFile? File, string At)> Files(NewRoom asked)
    {
        yield return (FileRole.Exam, asked.ExamFile, "/examFile");
        foreach ((int i, NewFile file) in (asked.Evidence.IsDefault ? [] : asked.Evidence).Index())
        {
            yield return (FileRole.Evidence, file, string.Create(CultureInfo.InvariantCulture, $"/evidence/{i}"));
        }

        foreach ((int i, NewFile file) in (asked.Cohort ?? []).Index())
        {
            yield return (FileRole.Cohort, file, string.Create(CultureInfo.InvariantCulture, $"/cohort/{i}"));
        }

        yield return (FileRole.ItemBank, asked.ItemBank, "/itemBank");
    }
}
