using System.Collections.Immutable;

using Homestretch.Files.Candidates;
using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;
using Homestretch.Web.Uploads;

using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Importing;

/// <summary>Answers the forms of the import of candidates.</summary>
public static class ImportRoutes
{
    /// <summary>The page.</summary>
    public const string Address = "/candidates/import";

    /// <summary>Form field of the rows to import.</summary>
    public const string TakeField = "take";

    // A tick for every row, and a few fields beside them.
    private const int MostFields = CandidatesFile.MostRows + 16;

    /// <summary>Maps them.</summary>
    public static void MapImport(this IEndpointRouteBuilder routes)
    {
        routes.MapPost(Address, CheckAsync);
        routes.MapPost(Address + "/links", LinksAsync);
        routes.MapPost(Address + "/keep", KeepAsync).WithFormOptions(valueCountLimit: MostFields, multipartBodyLengthLimit: Upload.MostBytes, valueLengthLimit: 4096);
    }

    /// <summary>The page of an import that was done.</summary>
    public static string Done(string run) => $"{Address}/done?run={Uri.EscapeDataString(run)}";

    /// <summary>The preview of a draft.</summary>
    public static string Preview(string draft) => $"{Address}?draft={Uri.EscapeDataString(draft)}";

    private static async Task<SeeOther> CheckAsync([FromForm] IFormCollection form, Drafts drafts, CancellationToken cancellation)
    {
        string? draftId = form["draft"];
        RoomDraft before = drafts.Find<RoomDraft>(draftId) ?? RoomDraft.Empty;
        RoomSheet? sheet = before.Sheet;
        if (form.Files.FirstOrDefault(f => f.Name == RoomImport.SheetField && f.FileName.Length > 0) is { } chosen)
        {
            sheet = new(Upload.FileName(chosen.FileName), await Upload.BytesAsync(chosen, cancellation));
        }

        // An exam file that was chosen just now counts; otherwise the exam chosen from the list, and no file of before.
        ImmutableArray<NamedFile> files = [.. await UploadRoutes.FilesAsync(form, Draft.Empty with { Files = before.Files }, cancellation)];
        string examKey = form.Files.Any(f => f.Name == Upload.FieldOf(FileRole.Exam) && f.FileName.Length > 0) ? "" : form[RoomImport.ExamKeyField].ToString().Trim();
        RoomDraft draft = new(
            examKey,
            form[RoomImport.ZoneField].ToString().Trim(),
            form[Upload.DayField].ToString().Trim(),
            sheet,
            examKey.Length == 0 ? files : [.. files.Where(f => f.Role != FileRole.Exam)]);
        drafts.Forget(draftId);
        return new SeeOther(Preview(drafts.Keep(draft)) + "#result");
    }

    private static async Task<SeeOther> KeepAsync(
        [FromForm] IFormCollection form, Drafts drafts, RoomImport import, CaseStore store, FirstPlans plans, TimeProvider time, CancellationToken cancellation)
    {
        string draftId = form["draft"].ToString();
        if (drafts.Find<RoomDraft>(draftId) is not { } draft)
        {
            return new SeeOther(Preview(draftId));
        }

        Instant now = time.GetUtcNow().ToInstant();
        if ((await import.CheckAsync(draft, now, cancellation)).Preview is not { } preview)
        {
            return new SeeOther(Preview(draftId) + "#result");
        }

        ImmutableArray<StoredCase> cases = RoomImport.Cases(draft, preview, form[TakeField].OfType<string>().ToHashSet(), now);
        if (cases.IsEmpty)
        {
            return new SeeOther(Preview(draftId) + "&none=yes#result");
        }

        if ((await store.AddAllAsync(preview.Joins, cases, cancellation)).Count > 0)
        {
            // Somebody was quicker; the preview says who is here by now.
            return new SeeOther(Preview(draftId) + "#result");
        }

        drafts.Forget(draftId);
        plans.Ask(cases.Select(c => c.Key));
        return new SeeOther(Done(drafts.Keep(new ImportRun([.. cases.Select(c => (c.Key, c.Candidate))]))));
    }

    // Whoever has a link already keeps it: it may have been handed out.
    private static async Task<SeeOther> LinksAsync(
        [FromForm] IFormCollection form, Drafts drafts, CaseStore store, FreshLinks fresh, TimeProvider time, CancellationToken cancellation)
    {
        string runId = form["run"].ToString();
        if (drafts.Find<ImportRun>(runId) is not { } run)
        {
            return new SeeOther(Done(runId));
        }

        HashSet<string> without = [.. (await store.ListedAsync(cancellation)).Where(c => !c.Figures.HasLink).Select(c => c.Key)];
        Instant now = time.GetUtcNow().ToInstant();
        ImmutableArray<(string Key, string Candidate, PersonalToken Token)> made = [.. run.Cases.Where(c => without.Contains(c.Key)).Select(c => (c.Key, c.Candidate, PersonalToken.Make()))];
        return !made.IsEmpty && await store.KeepAllAsync(made.ToDictionary(m => m.Key, IEnumerable<KeptRow> (m) => [PersonalRoutes.LinkOf(m.Token, now)]), cancellation)
            ? new SeeOther($"{Address}/links?made={drafts.Keep(new LinkRun([.. made.Select(m => (m.Key, m.Candidate, fresh.Keep(m.Key, m.Token)))]))}")
            : new SeeOther(Done(runId));
    }
}
