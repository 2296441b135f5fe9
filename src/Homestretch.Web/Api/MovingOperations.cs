using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Store;
using Homestretch.Web.Keeping;

namespace Homestretch.Web.Api;

/// <summary>Everything out as files, and in again (docs/export.md).</summary>
internal static class MovingOperations
{
    private const string Tag = "Moving";

    public static void Map(RouteGroupBuilder api)
    {
        api.MapGet("/export", (HttpContext context, CaseStore store) => KeptRoutes.Zipped(context, store, null, "homestretch.zip"))
            .Produces<string>(200, ApiBody.Zip).Says(Tag, "exportAll", "Everything that is kept, as a zip of files.", [], "-o homestretch.zip");
        api.MapGet("/cases/{key}/export", async (string key, HttpContext context, CaseStore store) =>
            await store.VersionAsync(key, context.RequestAborted) is null ? ApiProblem.NoCase(key) : KeptRoutes.Zipped(context, store, key, key + ".zip"))
            .Produces<string>(200, ApiBody.Zip).Says(Tag, "exportCase", "One case and its exam, as a zip of files.", [404], "-o case.zip");
        api.MapPost("/import", ImportAsync).Accepts<string>(ApiBody.Zip).Produces<MovedDocument>()
            .Says(Tag, "import", "Reads an export, all of it or nothing.", [413, 415, 422], "-X POST -H 'Content-Type: application/zip' --data-binary @homestretch.zip");
    }

    private static async Task<IResult> ImportAsync(HttpContext context, CaseStore store)
    {
        if (ApiBody.WrongType(context.Request, ApiBody.Zip) is { } wrong)
        {
            return wrong;
        }

        (byte[]? bytes, ApiProblem? problem) = await ApiBody.BytesAsync(context);
        if (bytes is null)
        {
            return problem!;
        }

        string name = RowOperations.FileName(context, "body.zip");
        using MemoryStream zip = new(bytes);
        ReadResult<StoreCounts> read = await store.ImportAsync(zip, name, context.RequestAborted);
        return read.Value is { } counts
            ? DocumentOperations.Written(DocumentJson.Write(new MovedDocument(name, counts.Exams, counts.Cases, counts.EvidenceRows, counts.Sessions, counts.Plans, counts.Decisions, counts.Words)))
            : ApiProblem.Unusable(ApiProblem.Errors(read.Problems));
    }
}
