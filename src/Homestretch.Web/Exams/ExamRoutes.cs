using System.Collections.Immutable;
using System.Globalization;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Files;
using Homestretch.Files.Exams;
using Homestretch.Files.Exams.Editing;
using Homestretch.Files.Exams.Pasting;
using Homestretch.Files.QuizItems;
using Homestretch.Files.Resources;
using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;
using Homestretch.Web.Keeping;
using Homestretch.Web.Pages;
using Homestretch.Web.Uploads;

using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Exams;

/// <summary>Answers the forms with which exams are set up. Every answer but a check is a redirection, so that reloading a page repeats nothing.</summary>
public static class ExamRoutes
{
    private const string FileName = "exam.yaml";

    /// <summary>Maps editing, pasting, uploading, versions and materials of exams.</summary>
    public static void MapExams(this IEndpointRouteBuilder routes)
    {
        RouteGroupBuilder forms = routes.MapGroup("/exams");
        forms.MapPost("/edit", EditAsync);
        forms.MapPost("/check", Check);
        forms.MapPost("/text", TextAsync);
        forms.MapPost("/check-text", CheckText);
        forms.MapPost("/paste", PasteAsync);
        forms.MapPost("/upload", UploadAsync);
        forms.MapPost("/keep", KeepAsync);
        forms.MapPost("/{key}/take-back", TakeBackAsync);
        forms.MapPost("/{key}/put-back", PutBackAsync);
        forms.MapPost("/{key}/materials", AddMaterialsAsync);
        forms.MapPost("/{key}/materials/take-out", (string key, [FromForm] IFormCollection form, CaseStore store, TimeProvider time, CancellationToken cancellation) =>
            MarkMaterialsAsync(key, form, time.GetUtcNow().ToInstant(), store, cancellation));
        forms.MapPost("/{key}/materials/put-back", (string key, [FromForm] IFormCollection form, CaseStore store, CancellationToken cancellation) =>
            MarkMaterialsAsync(key, form, null, store, cancellation));

        // A form of an exam has many short values, and one long one.
        forms.WithFormOptions(valueCountLimit: ExamForm.MostValues, valueLengthLimit: (int)Upload.MostBytes, bufferBodyLengthLimit: Upload.MostBytes, multipartBodyLengthLimit: Upload.MostBytes);
        routes.MapGet("/exams/{key}/exam.yaml", DownloadAsync);
    }

    private static RazorComponentResult Check([FromForm] IFormCollection form)
        => new(typeof(ExamCheckPart), new Dictionary<string, object?> { [nameof(ExamCheckPart.Check)] = DraftCheck.Of(ExamForm.Read(form)) });

    private static RazorComponentResult CheckText([FromForm] IFormCollection form)
        => new(typeof(TextCheckPart), new Dictionary<string, object?> { [nameof(TextCheckPart.Read)] = ExamFile.Parse(FileName, YamlOf(form)) });

    private static string YamlOf(IFormCollection form) => form["yaml"].ToString().ReplaceLineEndings("\n");

    private static string? KeyOf(IFormCollection form) => form["exam"].ToString() is { Length: > 0 } key ? key : null;

    private static async Task<IResult> EditAsync(
        [FromForm] IFormCollection form, ExamEdits edits, ExamVersions versions, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        string? key = KeyOf(form);
        if (key is not null && await store.CurrentVersionAsync(key, cancellation) is null)
        {
            return Results.NotFound();
        }

        string? id = form["draft"];
        ExamEdit edit = (edits.Find(id) ?? new ExamEdit()) with { ExamKey = key, Draft = ExamForm.Read(form), Text = null };
        string action = form["do"].ToString();
        switch (action)
        {
            case "save" when DraftCheck.Of(edit.Draft) is { Exam: { } exam } check:
                return await OfferAsync(edit, id, exam, check.Text, Origin.Coach, edits, versions, store, time, cancellation);
            case "save":
                return new SeeOther(ExamAddress.Work(key, "edit", edits.Keep(id, edit)) + "&tried=yes#problems");
            case "paste":
                return new SeeOther(ExamAddress.Work(key, "paste", edits.Keep(id, edit)));
            case "text":
                return new SeeOther(ExamAddress.Work(key, "text", edits.Keep(id, edit with { Text = DraftCheck.Of(edit.Draft).Text })));
            case "" or "check":
                return new SeeOther(ExamAddress.Work(key, "edit", edits.Keep(id, edit)) + "#check");
            default:
                if (RowAction.Apply(edit, action, out string field) is not { } changed)
                {
                    edits.Keep(id, edit);
                    return Results.BadRequest();
                }

                return new SeeOther($"{ExamAddress.Work(key, "edit", edits.Keep(id, changed))}&at={field}#{field}");
        }
    }

    private static async Task<IResult> TextAsync(
        [FromForm] IFormCollection form, ExamEdits edits, ExamVersions versions, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        string? key = KeyOf(form);
        if (key is not null && await store.CurrentVersionAsync(key, cancellation) is null)
        {
            return Results.NotFound();
        }

        string? id = form["draft"];
        string text = YamlOf(form);
        ReadResult<Exam> read = ExamFile.Parse(FileName, text);
        ExamEdit edit = (edits.Find(id) ?? new ExamEdit()) with { ExamKey = key, Text = text, Problems = [] };
        return (form["do"].ToString(), read.Value) switch
        {
            ("save", { } exam) => await OfferAsync(edit, id, exam, text, Origin.Coach, edits, versions, store, time, cancellation),
            ("form", { } exam) => new SeeOther(ExamAddress.Work(key, "edit", edits.Keep(id, edit with { Draft = ExamDraft.Of(exam), Text = null }))),
            _ => new SeeOther(ExamAddress.Work(key, "text", edits.Keep(id, edit)) + "#check"),
        };
    }

    private static async Task<IResult> PasteAsync([FromForm] IFormCollection form, ExamEdits edits, CaseStore store, CancellationToken cancellation)
    {
        string? key = KeyOf(form);
        if (key is not null && await store.CurrentVersionAsync(key, cancellation) is null)
        {
            return Results.NotFound();
        }

        string? id = form["draft"];
        string pasted = form["pasted"].ToString().ReplaceLineEndings("\n");
        ExamEdit edit = edits.Find(id) ?? new ExamEdit { ExamKey = key };
        PastedTable table = PastedTable.Read(pasted);

        // A text that is far too long is refused and not kept.
        edit = edit with { ExamKey = key, Pasted = pasted.Length <= PastedTable.MostCharacters ? pasted : "" };
        if (form["do"] != "put" || table.Sections.IsEmpty || PutIn(edit.Draft, table, form["into"].ToString()) is not { } draft)
        {
            string tooLong = pasted.Length > PastedTable.MostCharacters ? string.Create(CultureInfo.InvariantCulture, $"&long={pasted.Length}") : "";
            return new SeeOther(ExamAddress.Work(key, "paste", edits.Keep(id, edit)) + tooLong + "#understood");
        }

        ExamEdit put = edit.Changed(draft, "The pasted table was put in.");
        return new SeeOther(ExamAddress.Work(key, "edit", edits.Keep(id, put)) + "#check");
    }

    /// <summary>A form with a table put in; null where there is no such place.</summary>
    /// <param name="draft">The form.</param>
    /// <param name="table">The table.</param>
    /// <param name="into"><c>new</c> for sections of their own, <c>replace-0</c> in place of a section's topics, <c>append-0</c> after them.</param>
    public static ExamDraft? PutIn(ExamDraft draft, PastedTable table, string into)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(into);
        if (into == "new")
        {
            // A form in which nothing has been typed yet has one empty section, which the table takes the place of.
            bool untouched = draft.Sections is [{ } only] && only.Topics.All(t => t.IsBlank) && string.IsNullOrWhiteSpace(only.Name) && string.IsNullOrWhiteSpace(only.ScoredItems);
            return draft with { Sections = untouched ? table.Sections : draft.Sections.AddRange(table.Sections) };
        }

        string[] parts = into.Split('-');
        if (parts is not [("replace" or "append") and var how, var number] || !int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out int at) || at >= draft.Sections.Length)
        {
            return null;
        }

        SectionDraft section = draft.Sections[at];
        string scored = section.ScoredItems.Length == 0 && table.Sections.Length == 1 && how == "replace" ? table.Sections[0].ScoredItems : section.ScoredItems;
        return draft with
        {
            Sections = draft.Sections.SetItem(at, section with
            {
                ScoredItems = scored,
                Topics = [.. how == "replace" ? [] : section.Topics.Where(t => !t.IsBlank), .. table.Sections.SelectMany(s => s.Topics)],
            }),
        };
    }

    private static async Task<IResult> UploadAsync(
        [FromForm] IFormCollection form, ExamEdits edits, ExamVersions versions, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        string? key = KeyOf(form);
        if (key is not null && await store.CurrentVersionAsync(key, cancellation) is null)
        {
            return Results.NotFound();
        }

        if (form.Files.FirstOrDefault(f => f.Name == "file" && f.FileName.Length > 0) is not { } chosen)
        {
            return new SeeOther((key is null ? "/exams" : ExamAddress.Of(key)) + "?nothing=yes#upload");
        }

        NamedFile file = await Upload.ReadAsync(FileRole.Exam, chosen, cancellation);
        ReadResult<Exam> read = CaseReader.Exam(file);
        string? text = CaseReader.TextOf(file.Content.Span);
        ExamEdit edit = new() { ExamKey = key, FileName = file.Name, Text = text is { Length: <= PastedTable.MostCharacters } ? text.ReplaceLineEndings("\n") : null, Problems = read.Problems };
        return read.Value is { } exam
            ? await OfferAsync(edit, null, exam, text!, Origin.File, edits, versions, store, time, cancellation)
            : new SeeOther(ExamAddress.Work(key, "text", edits.Keep(null, edit)));
    }

    /// <summary>Keeps an exam or a version of it; where people prepare for it, shows first what that means for them.</summary>
    private static async Task<IResult> OfferAsync(
        ExamEdit edit, string? id, Exam exam, string text, Origin origin, ExamEdits edits, ExamVersions versions, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        Instant now = time.GetUtcNow().ToInstant();
        StoredExamVersion version = new() { At = now, Origin = origin, Name = edit.FileName, Content = Encoding.UTF8.GetBytes(text) };
        if (edit.ExamKey is not { } key)
        {
            if (await store.ExamOfAsync(version.Content, cancellation) is { } same)
            {
                edits.Forget(id);
                return new SeeOther(ExamAddress.Of(same) + "?kept=same");
            }

            StoredExam added = new() { Key = ExamLibrary.NewKey(exam.Name), Name = exam.Name, Versions = [version] };
            await store.AddExamAsync(added, cancellation);
            edits.Forget(id);
            return new SeeOther(ExamAddress.Of(added.Key) + "?kept=new");
        }

        if (await store.FindExamAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        if (ExamVersions.IsCurrent(stored, version.Content))
        {
            edits.Forget(id);
            return new SeeOther(ExamAddress.Of(key) + "?kept=same");
        }

        // Where nobody prepares for it there is nothing to look at first.
        if ((await store.CasesOfExamAsync(key, cancellation)).Count > 0 || !(await versions.KeepAsync(stored, version, exam, cancellation)).IsEmpty)
        {
            // The text is what will be kept; the form stays, for going back to it.
            return new SeeOther(ExamAddress.Work(key, "change", edits.Keep(id, edit with { Text = text, Problems = [] })) + (origin == Origin.File ? "&from=file" : edit.Text is null ? "&from=form" : "&from=text"));
        }

        edits.Forget(id);
        return new SeeOther(ExamAddress.Of(key) + "?kept=version");
    }

    /// <summary>Keeps a version that was looked at beforehand.</summary>
    private static async Task<IResult> KeepAsync(
        [FromForm] IFormCollection form, ExamEdits edits, ExamVersions versions, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        string? id = form["draft"];
        if (KeyOf(form) is not { } key || await store.FindExamAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        if (edits.Find(id) is not { Text: { } text } edit || edit.ExamKey != key || ExamFile.Parse(edit.FileName, text).Value is not { } exam)
        {
            return new SeeOther(ExamAddress.Work(key, "change", id ?? "gone"));
        }

        StoredExamVersion version = new() { At = time.GetUtcNow().ToInstant(), Origin = form["from"] == "file" ? Origin.File : Origin.Coach, Name = edit.FileName, Content = Encoding.UTF8.GetBytes(text) };
        if (!(await versions.KeepAsync(stored, version, exam, cancellation)).IsEmpty)
        {
            return new SeeOther(ExamAddress.Work(key, "change", id));
        }

        edits.Forget(id);
        return new SeeOther(ExamAddress.Of(key) + "?kept=version");
    }

    private static async Task<IResult> TakeBackAsync(
        string key, [FromForm] IFormCollection form, ExamVersions versions, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        if (await store.FindExamAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        StoredExamVersion[] counting = [.. stored.Versions.Where(v => v.RemovedAt is null)];
        if (counting.Length < 2 || form["version"] != Number(counting[^1].Id))
        {
            return new SeeOther(ExamAddress.Of(key) + "?refused=stale#versions");
        }

        return await SwitchAsync(key, stored, counting[^2], counting[^1].Id, time.GetUtcNow().ToInstant(), "The former blueprint counts again.", versions, cancellation);
    }

    private static async Task<IResult> PutBackAsync(string key, [FromForm] IFormCollection form, ExamVersions versions, CaseStore store, CancellationToken cancellation)
    {
        if (await store.FindExamAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        return stored.Versions.FirstOrDefault(v => v.RemovedAt is not null && form["version"] == Number(v.Id)) is { } version
            ? await SwitchAsync(key, stored, stored.Versions.Where(v => v.RemovedAt is null || v == version).MaxBy(v => v.Id)!, version.Id, null, "A blueprint that had been taken back counts again.", versions, cancellation)
            : new SeeOther(ExamAddress.Of(key) + "?refused=stale#versions");
    }

    private static async Task<IResult> SwitchAsync(
        string key, StoredExam stored, StoredExamVersion counts, long marked, Instant? removedAt, string otherwise, ExamVersions versions, CancellationToken cancellation)
    {
        if (ExamLibrary.Read(counts).Value is not { } exam)
        {
            return new SeeOther(ExamAddress.Of(key) + "?refused=unreadable#versions");
        }

        (bool done, ImmutableArray<ExamRefusal> refused) = await versions.SwitchAsync(stored, counts, exam, marked, removedAt, otherwise, cancellation);
        return new SeeOther(done ? ExamAddress.Of(key) + "?kept=back#versions" : $"{ExamAddress.Of(key)}?refused={(refused.IsEmpty ? "stale" : Number(counts.Id))}#versions");
    }

    private static async Task<IResult> DownloadAsync(string key, [FromQuery] string? version, CaseStore store, CancellationToken cancellation)
    {
        StoredExam? stored = await store.FindExamAsync(key, cancellation);
        StoredExamVersion? wanted = stored is null ? null : version is null ? ExamLibrary.Current(stored) : stored.Versions.FirstOrDefault(v => Number(v.Id) == version);
        return wanted is null ? Results.NotFound() : Results.File(wanted.Content, "text/plain; charset=utf-8", FileName);
    }

    private static async Task<IResult> AddMaterialsAsync(
        string key, [FromForm] IFormCollection form, ExamEdits edits, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        if (await store.FindExamAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        Instant now = time.GetUtcNow().ToInstant();
        string folder = FolderOf(form["topic"].ToString());
        List<StoredExamFile> added = [];
        foreach (IFormFile file in form.Files.Where(f => f.FileName.Length > 0 && f.Name is "resources" or "items"))
        {
            bool items = file.Name == "items";
            added.Add(new()
            {
                At = now,
                Role = items ? ExamFileRole.QuizItems : ExamFileRole.Resources,
                Name = (items ? folder : "") + Upload.FileName(file.FileName),
                Content = await Upload.BytesAsync(file, cancellation),
            });
        }

        if (added.Count == 0 || ExamLibrary.Current(stored) is not { } current || ExamLibrary.Read(current).Value is not { } exam)
        {
            return new SeeOther(ExamAddress.Of(key) + "?nothing=materials#add-materials");
        }

        FileProblem[] problems = [.. Problems(stored, added, exam)];
        if (problems.Length > 0)
        {
            return new SeeOther($"{ExamAddress.Of(key)}?draft={edits.Keep(null, new ExamEdit { ExamKey = key, Problems = [.. problems] })}#add-materials");
        }

        await store.KeepExamFilesAsync(key, added, cancellation);
        return new SeeOther(ExamAddress.Of(key) + "?kept=materials#materials");
    }

    // Items that do not say their topic are of the folder's they lie in. A slash in a topic's name would make two folders of it; signs do not count there.
    private static string FolderOf(string topic) => topic.Length == 0 ? "" : Upload.FileName(topic.Replace('/', '-').Replace('\\', '-')) + "/";

    // New items are read together with those that are there, since no two may have one label.
    private static IEnumerable<FileProblem> Problems(StoredExam stored, List<StoredExamFile> added, Exam exam)
    {
        foreach (StoredExamFile catalogue in added.Where(f => f.Role == ExamFileRole.Resources))
        {
            foreach (FileProblem problem in ResourceFile.Parse(catalogue.Name, catalogue.Content, exam).Problems)
            {
                yield return problem;
            }
        }

        if (added.Any(f => f.Role == ExamFileRole.QuizItems))
        {
            IEnumerable<StoredExamFile> files = stored.Files.Where(f => f is { Role: ExamFileRole.QuizItems, RemovedAt: null }).Concat(added.Where(f => f.Role == ExamFileRole.QuizItems));
            ReadResult<QuizItemSet> read = QuizItemFile.ParseAll([.. files.Select(f => (f.Name, (ReadOnlyMemory<byte>)f.Content))], exam);
            foreach (FileProblem problem in read.Problems)
            {
                yield return problem;
            }

            if (read.Value is { Items.IsEmpty: true })
            {
                yield return new(added.Last(f => f.Role == ExamFileRole.QuizItems).Name, 1, "No item could be taken over: " + string.Join(' ', read.Value.Skipped.Take(5).Select(s => $"{s.Item}: {s.Text}")));
            }
        }
    }

    private static async Task<IResult> MarkMaterialsAsync(string key, IFormCollection form, Instant? removedAt, CaseStore store, CancellationToken cancellation)
    {
        if (IdList.Read(form["ids"]) is not { } ids || await store.CurrentVersionAsync(key, cancellation) is null)
        {
            return Results.NotFound();
        }

        await store.MarkExamFilesAsync(key, ids, removedAt, cancellation);
        return new SeeOther(ExamAddress.Of(key) + "#materials");
    }

    private static string Number(long id) => id.ToString(CultureInfo.InvariantCulture);
}
