using System.Collections.Immutable;

using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;

using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Uploads;

/// <summary>Answers the forms that change something. Every answer is a redirection, so that reloading a page repeats nothing.</summary>
public static class UploadRoutes
{
    /// <summary>Maps entering, removing and restoring a case.</summary>
    public static void MapUploads(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/new", AddAsync);
        routes.MapPost("/case/{key}/remove", RemoveAsync);
        routes.MapPost("/case/{key}/restore", RestoreAsync);
    }

    // The form is bound as a whole; that also makes the framework check its antiforgery token.
    private static async Task<SeeOther> AddAsync(
        [FromForm] IFormCollection form, Drafts drafts, CaseStore store, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation)
    {
        string? draftId = form["draft"];
        Draft before = drafts.Find<Draft>(draftId) ?? Draft.Empty;
        Draft draft = new(
            form[Upload.CandidateField].ToString(),
            form[Upload.DayField].ToString(),
            [.. await FilesAsync(form, before, cancellation)]);
        draft = await WithKeptExamAsync(draft, form, store, cancellation);
        Instant now = time.GetUtcNow().ToInstant();
        if (Upload.Check(draft, now, out _) is { } added)
        {
            await store.AddAsync(added, cancellation);
            drafts.Forget(draftId);
            await keeper.RefreshAsync(added.Key, "Your first plan.", cancellation);
            return new SeeOther($"/case/{added.Key}");
        }

        drafts.Forget(draftId);
        return new SeeOther($"/new?draft={drafts.Keep(draft)}");
    }

    // An exam that is kept already takes the place of a file; a file chosen in the same form goes before it.
    private static async Task<Draft> WithKeptExamAsync(Draft draft, IFormCollection form, CaseStore store, CancellationToken cancellation)
    {
        string key = form[Upload.KeptExamField].ToString();
        bool chosen = form.Files.Any(f => f.Name == Upload.FieldOf(FileRole.Exam) && f.FileName.Length > 0);
        return key.Length == 0 || chosen || await store.CurrentVersionAsync(key, cancellation) is not { } version
            ? draft
            : draft with { Files = [new NamedFile(FileRole.Exam, version.Name, version.Content), .. draft.Files.Where(f => f.Role != FileRole.Exam)] };
    }

    private static async Task<IResult> RemoveAsync(
        string key, [FromForm] IFormCollection form, CaseStore store, TimeProvider time, CancellationToken cancellation)
        => await store.RemoveAsync(key, time.GetUtcNow().ToInstant(), cancellation)
            ? new SeeOther($"/?removed={Uri.EscapeDataString(key)}")
            : Results.NotFound();

    private static async Task<IResult> RestoreAsync(
        string key, [FromForm] IFormCollection form, CaseStore store, CancellationToken cancellation)
        => await store.RestoreAsync(key, cancellation) ? new SeeOther($"/case/{Uri.EscapeDataString(key)}") : Results.NotFound();

    /// <summary>The files of a form. New files replace those of the same role; the others stay.</summary>
    /// <param name="form">The form.</param>
    /// <param name="before">What had been entered before.</param>
    /// <param name="cancellation">Stops the reading.</param>
    public static async Task<List<NamedFile>> FilesAsync(IFormCollection form, Draft before, CancellationToken cancellation)
    {
        List<NamedFile> files = [];
        foreach ((FileRole role, string field) in Upload.FileFields)
        {
            ImmutableArray<IFormFile> chosen = [.. form.Files.Where(f => f.Name == field && f.FileName.Length > 0)];
            foreach (IFormFile file in Upload.TakesSeveral(role) ? chosen : chosen.Take(1))
            {
                files.Add(await Upload.ReadAsync(role, file, cancellation));
            }

            if (chosen.IsEmpty && form[$"drop-{field}"] != "yes")
            {
                files.AddRange(before.Files.Where(f => f.Role == role));
            }
        }

        return files;
    }
}
