using System.Globalization;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Calendars;
using Homestretch.Store;
using Homestretch.Web.Hosting;
using Homestretch.Web.Keeping;

using Microsoft.AspNetCore.Mvc;
using Microsoft.Net.Http.Headers;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Candidates;

/// <summary>Answers the forms of the candidate's pages and the calendar feed, and the coach's forms for making and revoking a link.</summary>
public static class PersonalRoutes
{
    /// <summary>Most items of one topic in a short quiz.</summary>
    public const int MostQuizItems = 200;

    /// <summary>Maps them.</summary>
    public static void MapPersonal(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/case/{key}/link", MakeLinkAsync);
        routes.MapPost("/case/{key}/link/revoke", RevokeLinkAsync);
        routes.MapPost("/me/{token}/study", StudyAsync);
        routes.MapPost("/me/{token}/quiz", QuizAsync);
        routes.MapPost("/me/{token}/undo", UndoAsync);
        routes.MapGet("/feed/{name}", FeedAsync);
    }

    private static async Task<IResult> MakeLinkAsync(
        string key, [FromForm] IFormCollection form, CaseStore store, FreshLinks fresh, TimeProvider time, CancellationToken cancellation)
    {
        return await NewLinkAsync(store, key, time.GetUtcNow().ToInstant(), cancellation) is { } token
            ? new SeeOther($"/case/{Uri.EscapeDataString(key)}/link?made={fresh.Keep(key, token)}")
            : Results.NotFound();
    }

    /// <summary>A new link of a case in use; null where there is no such case. One link at a time: a new one is made because the old one was lost, or seen by others.</summary>
    internal static async Task<PersonalToken?> NewLinkAsync(CaseStore store, string key, Instant now, CancellationToken cancellation)
    {
        await RevokeAllAsync(store, key, now, cancellation);
        PersonalToken token = PersonalToken.Make();
        return await store.KeepAsync(key, [LinkOf(token, now)], cancellation) ? token : null;
    }

    /// <summary>What is kept of a new link.</summary>
    internal static PersonalLink LinkOf(PersonalToken token, Instant now)
        => new() { At = now, Origin = Origin.Coach, PageHash = PersonalToken.Hash(token.Page), FeedHash = PersonalToken.Hash(token.Feed) };

    private static async Task<IResult> RevokeLinkAsync(string key, [FromForm] IFormCollection form, CaseStore store, TimeProvider time, CancellationToken cancellation)
        => await RevokeAllAsync(store, key, time.GetUtcNow().ToInstant(), cancellation) > 0 ? new SeeOther($"/case/{Uri.EscapeDataString(key)}/link") : Results.NotFound();

    /// <summary>Revokes the links of a case; returns how many.</summary>
    internal static async Task<int> RevokeAllAsync(CaseStore store, string key, Instant now, CancellationToken cancellation)
        => await store.TakeOutAsync<PersonalLink>(key, [.. (await store.LinksAsync(key, cancellation)).Select(l => l.Id)], now, cancellation);

    private static async Task<IResult> StudyAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        StudyOutcome? outcome = form["outcome"].ToString() switch { "done" => StudyOutcome.Done, "partly" => StudyOutcome.Partly, "missed" => StudyOutcome.Missed, _ => null };
        string asked = form["minutes"].ToString().Trim();
        int? minutes = int.TryParse(asked, NumberStyles.None, CultureInfo.InvariantCulture, out int given) ? given : null;
        if (outcome is not { } became || (asked.Length > 0 && minutes is null))
        {
            return new SeeOther($"/me/{token}?wrong=yes");
        }

        long? row = await cases.RecordAsync(view, form["block"].ToString(), form["start"].ToString(), became, minutes, cancellation);
        return new SeeOther(row is { } id ? string.Create(CultureInfo.InvariantCulture, $"/me/{token}?did={id}") : $"/me/{token}?wrong=yes");
    }

    private static async Task<IResult> QuizAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        List<(string Topic, int Correct, int Items)> counts = [];
        List<string> echo = [];
        bool wrong = false;
        foreach ((int i, ExamTopic topic) in view.Case.Exam.Topics.Index())
        {
            string right = form[$"right-{i}"].ToString().Trim();
            string of = form[$"of-{i}"].ToString().Trim();
            if (right.Length == 0 && of.Length == 0)
            {
                continue;
            }

            echo.Add(string.Create(CultureInfo.InvariantCulture, $"&right-{i}={Uri.EscapeDataString(Shortened(right))}&of-{i}={Uri.EscapeDataString(Shortened(of))}"));
            if (int.TryParse(right, NumberStyles.None, CultureInfo.InvariantCulture, out int correct)
                && int.TryParse(of, NumberStyles.None, CultureInfo.InvariantCulture, out int items)
                && items is >= 1 and <= MostQuizItems && correct <= items)
            {
                counts.Add((topic.Name, correct, items));
            }
            else
            {
                wrong = true;
            }
        }

        if (wrong || counts.Count == 0)
        {
            return new SeeOther($"/me/{token}/quiz?wrong=yes{string.Concat(echo)}");
        }

        (System.Collections.Immutable.ImmutableArray<long> rows, System.Collections.Immutable.ImmutableArray<string> problems)
            = await cases.RecordQuizAsync(view, counts, cancellation);
        return new SeeOther(problems.IsEmpty ? $"/me/{token}?quiz={Uri.EscapeDataString(IdList.Write(rows))}" : $"/me/{token}/quiz?problem={Uri.EscapeDataString(problems[0])}{string.Concat(echo)}");
    }

    private static async Task<IResult> UndoAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        return IdList.Read(form["ids"]) is { } ids && await cases.UndoAsync(view, form["kind"] == "study", ids, cancellation)
            ? new SeeOther($"/me/{token}?undone=yes")
            : new SeeOther($"/me/{token}");
    }

    /// <summary>The plan for a calendar that looks again by itself. It names its state, so that looking again costs nothing while nothing has changed.</summary>
    private static async Task<IResult> FeedAsync(string name, HttpContext context, PersonalCases cases, CancellationToken cancellation)
    {
        const string End = ".ics";
        if (!name.EndsWith(End, StringComparison.Ordinal) || await cases.FindFeedAsync(name[..^End.Length], cancellation) is not { } view || view.Plan is not { } plan)
        {
            return Results.NotFound();
        }

        context.Response.Headers.CacheControl = "private, no-cache";
        return Results.Bytes(
            Encoding.UTF8.GetBytes(PlanCalendar.Write(plan.Document, plan.At)),
            "text/calendar; charset=utf-8",
            entityTag: new EntityTagHeaderValue(string.Create(CultureInfo.InvariantCulture, $"\"plan-{plan.Id}\"")),
            lastModified: plan.At.ToDateTimeOffset());
    }

    private static string Shortened(string text) => text.Length <= 10 ? text : text[..10];
}
