using System.Collections.Immutable;

using Homestretch.Store;
using Homestretch.Web.Candidates;
using Homestretch.Web.Cases;
using Homestretch.Web.Hosting;

using Microsoft.AspNetCore.Mvc;

using NodaTime;
using NodaTime.Extensions;

namespace Homestretch.Web.Afterwards;

/// <summary>Records how the official exam ended: by the coach with what the report says, by the candidate in two taps.</summary>
public static class ResultRoutes
{
    /// <summary>Most characters of a score.</summary>
    public const int MostScoreLength = 40;

    /// <summary>The attempt's name in the evidence.</summary>
    public const string Attempt = "official exam";

    /// <summary>Maps the forms.</summary>
    public static void MapResults(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/case/{key}/result", CoachAsync);
        routes.MapPost("/me/{token}/result", CandidateAsync);
    }

    private static async Task<IResult> CoachAsync(
        string key, [FromForm] IFormCollection form, CaseLibrary library, CaseStore store, PlanKeeper keeper, TimeProvider time, CancellationToken cancellation)
    {
        if ((await library.FindAsync(key, cancellation))?.Value is not { IsDemo: false } found || await store.FindAsync(key, cancellation) is not { } stored)
        {
            return Results.NotFound();
        }

        ResultEntry entry = ResultEntry.Of(name => form[name].ToString(), found.Exam);
        if (!entry.Problems(found, stored, library.Now(found).Date).IsEmpty)
        {
            return new SeeOther($"/case/{Uri.EscapeDataString(key)}/result?{entry.Query}#record");
        }

        await KeepAsync(found, entry, store, keeper, time.GetUtcNow().ToInstant(), cancellation);
        return new SeeOther($"/case/{Uri.EscapeDataString(key)}/result");
    }

    /// <summary>Keeps a result that has no problems, with what it says of topics, and makes the plan anew.</summary>
    /// <param name="of">The case.</param>
    /// <param name="entry">The result as entered.</param>
    /// <param name="store">Keeps it.</param>
    /// <param name="keeper">Makes plans.</param>
    /// <param name="now">The moment of entering.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>What was kept: the result first.</returns>
    internal static async Task<ImmutableArray<KeptRow>> KeepAsync(ReadCase of, ResultEntry entry, CaseStore store, PlanKeeper keeper, Instant now, CancellationToken cancellation)
    {
        ImmutableArray<KeptRow> kept = [entry.Result(now, Origin.Coach), .. entry.Rows(of, now)];
        await store.KeepAsync(of.Key, kept, cancellation);
        await keeper.RefreshAsync(of.Key, entry.Passed is true ? "The exam was passed." : "The exam was not passed.", cancellation);
        return kept;
    }

    private static async Task<IResult> CandidateAsync(string token, [FromForm] IFormCollection form, PersonalCases cases, CaseStore store, TimeProvider time, CancellationToken cancellation)
    {
        if (await cases.FindAsync(token, cancellation) is not { } view)
        {
            return Results.NotFound();
        }

        bool? passed = form["passed"].ToString() switch { "yes" => true, "no" => false, _ => null };
        if (passed is not { } ended || view.Now.Date < view.Case.ExamDay)
        {
            return new SeeOther($"/me/{token}?wrong=yes");
        }

        // A second tap, or a second thought: what was said last holds.
        Instant now = time.GetUtcNow().ToInstant();
        if (await store.FindAsync(view.Key, cancellation) is { } stored)
        {
            await store.TakeOutAsync<OfficialResult>(view.Key, [.. stored.Results.Where(r => r.Origin == Origin.Candidate && r.Date == view.Case.ExamDay).Select(r => r.Id)], now, cancellation);
        }

        await store.KeepAsync(view.Key, [new OfficialResult { At = now, Origin = Origin.Candidate, Date = view.Case.ExamDay, Passed = ended }], cancellation);
        return new SeeOther($"/me/{token}");
    }
}
