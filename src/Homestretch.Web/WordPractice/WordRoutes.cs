using System.Collections.Immutable;
using System.Globalization;
using System.Text;

using Homestretch.Files;
using Homestretch.Files.Handouts;
using Homestretch.Files.WordLists;
using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;
using Homestretch.Web.Keeping;
using Homestretch.Web.Uploads;

using Microsoft.AspNetCore.Mvc;

using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.WordPractice;

/// <summary>Answers the forms about words, the candidate's and the coach's, and gives words out as a file and as cards.</summary>
public static class WordRoutes
{
    /// <summary>Words on one of the coach's pages: as many as fit into a form.</summary>
    public const int WordsOfAPage = 20;

    // What an address can carry.
    private const int MostProblems = 10;
    private const int LongestProblem = 300;

    /// <summary>Maps them.</summary>
    public static void MapWords(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/me/{token}/words", NoteAsync);
        routes.MapPost("/me/{token}/words/edit", EditAsync);
        routes.MapPost("/me/{token}/words/delete", DeleteAsync);
        routes.MapPost("/me/{token}/words/put-back", PutBackAsync);
        routes.MapPost("/me/{token}/words/recall", RecallAsync);
        routes.MapPost("/me/{token}/words/take-back", TakeBackAsync);
        routes.MapPost("/case/{key}/words", DefineAsync);
        routes.MapPost("/case/{key}/words/import", ImportAsync);
        routes.MapGet("/case/{key}/words.csv", ExportAsync);
        routes.MapGet("/case/{key}/cards", CardsAsync);
    }

    private static async Task<IResult> NoteAsync(
        string token, [FromForm] IFormCollection form, PersonalCases cases, WordShelf shelf, TimeProvider time, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        string page = $"/me/{token}/words";
        (string term, string topic, string definition) = (Tidy(form["term"]), Tidy(form["topic"]), Tidy(form["definition"]));
        CaseWords words = await shelf.ReadAsync(view.Case, view.Now.Date, cancellation);
        if (words.Find(term) is { } there)
        {
            return new SeeOther($"{page}?had={Uri.EscapeDataString(there.Term)}");
        }

        WordRow row = new()
        {
            At = time.GetUtcNow().ToInstant(),
            Origin = Origin.Candidate,
            Term = term,
            Topic = topic,
            Definition = definition,
            Noted = LocalDatePattern.Iso.Format(view.Now.Date),
        };
        ImmutableArray<FileProblem> problems = await shelf.KeepAsync(view.Case, row, cancellation);
        return new SeeOther(problems.IsEmpty ? $"{page}?noted={Uri.EscapeDataString(term)}#note" : $"{page}?{Said(problems)}&term={Echo(term)}&topic={Echo(topic)}&definition={Echo(definition)}#note");
    }

    private static async Task<IResult> EditAsync(
        string token, [FromForm] IFormCollection form, PersonalCases cases, WordShelf shelf, TimeProvider time, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view
            || await shelf.ReadAsync(view.Case, view.Now.Date, cancellation) is not { } words
            || words.Find(form["word"]) is not { } word)
        {
            return Results.NotFound();
        }

        WordRow latest = words.Latest(word.Term);
        (string topic, string definition) = (Tidy(form["topic"]), Tidy(form["definition"]));
        WordRow row = new()
        {
            At = time.GetUtcNow().ToInstant(),
            Origin = Origin.Candidate,
            Term = latest.Term,
            Topic = topic,
            Definition = definition,
            CoachDefinition = latest.CoachDefinition,
            Noted = latest.Noted,
        };
        ImmutableArray<FileProblem> problems = await shelf.KeepAsync(view.Case, row, cancellation);
        return new SeeOther(problems.IsEmpty
            ? $"/me/{token}/words?saved={Uri.EscapeDataString(word.Term)}"
            : $"/me/{token}/words?edit={Uri.EscapeDataString(word.Term)}&{Said(problems)}&topic={Echo(topic)}&definition={Echo(definition)}");
    }

    private static async Task<IResult> DeleteAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, WordShelf shelf, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        string term = form["word"].ToString();
        return new SeeOther(await shelf.DeleteAsync(view.Case, view.Now.Date, term, cancellation) is { } gone
            ? $"/me/{token}/words?gone={Echo(term)}&rows={IdList.Write(gone.Rows)}&recalls={IdList.Write(gone.Recalls)}"
            : $"/me/{token}/words");
    }

    private static async Task<IResult> PutBackAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, WordShelf shelf, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        return new SeeOther(IdList.Read(form["rows"]) is { } rows
            && await shelf.PutBackAsync(view.Case, view.Now.Date, rows, IdList.Read(form["recalls"]) ?? [], cancellation)
                ? $"/me/{token}/words?back=yes"
                : $"/me/{token}/words");
    }

    private static async Task<IResult> RecallAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, WordShelf shelf, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        long? row = OutcomeNames.Find(form["outcome"].ToString()) is { } outcome
            ? await shelf.RecallAsync(view.Case, view.Now.Date, form["word"].ToString(), outcome, cancellation)
            : null;
        return new SeeOther($"/me/{token}/words/practice" + (row is { } id ? string.Create(CultureInfo.InvariantCulture, $"?did={id}") : "?wrong=yes"));
    }

    private static async Task<IResult> TakeBackAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, WordShelf shelf, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        foreach (long id in IdList.Read(form["ids"])?.Take(1) ?? [])
        {
            await shelf.TakeBackAsync(view.Case, view.Now.Date, id, cancellation);
        }

        return new SeeOther($"/me/{token}/words/practice");
    }

    private static async Task<IResult> DefineAsync(string key, [FromForm] IFormCollection form, CaseLibrary library, WordShelf shelf, CancellationToken cancellation)
    {
        if (await FindAsync(key, library, cancellation) is not { } found)
        {
            return Results.NotFound();
        }

        Dictionary<string, string> definitions = new(StringComparer.OrdinalIgnoreCase);
        for (int i = 0; i < WordsOfAPage && form[$"word-{i}"].ToString() is { Length: > 0 } term; i++)
        {
            definitions[term] = Tidy(form[$"definition-{i}"]);
        }

        (int defined, ImmutableArray<FileProblem> problems) = await shelf.DefineAsync(found, library.Now(found).Date, definitions, form["everywhere"] == "yes", cancellation);
        return new SeeOther(problems.IsEmpty ? string.Create(CultureInfo.InvariantCulture, $"{Page(key)}?defined={defined}") : $"{Page(key)}?{Said(problems)}");
    }

    private static async Task<IResult> ImportAsync(
        string key, [FromForm] IFormCollection form, CaseLibrary library, WordShelf shelf, TimeProvider time, CancellationToken cancellation)
    {
        if (await FindAsync(key, library, cancellation) is not { } found)
        {
            return Results.NotFound();
        }

        if (form.Files["words"] is not { Length: > 0 } file)
        {
            return new SeeOther($"{Page(key)}?nofile=yes#import");
        }

        string name = Upload.FileName(file.FileName);
        ReadOnlyMemory<byte> bytes = await Upload.BytesAsync(file, cancellation);
        ReadResult<WordList> read = WordFile.ParseAll([(name, bytes)], found.Exam);
        ReadResult<IReadOnlyList<KeptRow>> rows = KeptRows.Words(name, bytes, time.GetUtcNow().ToInstant());
        if (read.Value is null || rows.Value is null)
        {
            return new SeeOther($"{Page(key)}?{Said(read.Value is null ? read.Problems : rows.Problems)}#import");
        }

        ImmutableArray<KeptRow> added = WordShelf.New(await shelf.ReadAsync(found, library.Now(found).Date, cancellation), rows.Value);
        ImmutableArray<FileProblem> problems = await shelf.KeepAsync(found, name, added, cancellation);
        return new SeeOther(problems.IsEmpty
            ? string.Create(CultureInfo.InvariantCulture, $"{Page(key)}?words={added.OfType<WordRow>().Count()}&answers={added.OfType<RecallRow>().Count()}#import")
            : $"{Page(key)}?{Said(problems)}#import");
    }

    private static async Task<IResult> ExportAsync(string key, CaseLibrary library, WordShelf shelf, CancellationToken cancellation)
        => await FindAsync(key, library, cancellation) is { } found
            ? Results.File(
                Encoding.UTF8.GetBytes(WordFile.Write(new WordList((await shelf.ReadAsync(found, library.Now(found).Date, cancellation)).Words))), "text/csv; charset=utf-8", "words.csv")
            : Results.NotFound();

    private static async Task<IResult> CardsAsync(string key, HttpContext context, CaseLibrary library, WordShelf shelf)
        => await FindAsync(key, library, context.RequestAborted) is { } found
            ? DownloadRoutes.Handed(context, Cards.Html(found.Exam.Name, (await shelf.ReadAsync(found, library.Now(found).Date, context.RequestAborted)).Words))
            : Results.NotFound();

    // The demo keeps nothing.
    private static async Task<ReadCase?> FindAsync(string key, CaseLibrary library, CancellationToken cancellation)
        => (await library.FindAsync(key, cancellation))?.Value is { IsDemo: false } found ? found : null;

    private static string Page(string key) => $"/case/{Uri.EscapeDataString(key)}/words";

    // As a file of words is read: stray spaces gone, line breaks turned into spaces.
    private static string Tidy(string? text) => string.Join(' ', (text ?? "").Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    private static string Echo(string text) => Uri.EscapeDataString(text.Length <= WordFile.LongestDefinition ? text : text[..WordFile.LongestDefinition]);

    // Problems of a form have no line that would help; those of a file have.
    private static string Said(ImmutableArray<FileProblem> problems)
    {
        IEnumerable<string> said = problems.Take(MostProblems).Select(p => p.File == WordShelf.Form ? p.Message : p.ToString()).Select(t => t.Length <= LongestProblem ? t : t[..LongestProblem] + "…");
        IEnumerable<string> more = problems.Length > MostProblems ? [string.Create(CultureInfo.InvariantCulture, $"And {problems.Length - MostProblems} more.")] : [];
        return string.Join('&', said.Concat(more).Select(t => "problem=" + Uri.EscapeDataString(t)));
    }
}
