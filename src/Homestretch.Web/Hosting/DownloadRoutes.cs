using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;

using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Documents;
using Homestretch.Files.Handouts;
using Homestretch.Web.Assuming;
using Homestretch.Web.Candidates;

using NodaTime.Extensions;

namespace Homestretch.Web.Hosting;

/// <summary>What can be taken away from a case's page, under the assumptions of that page.</summary>
public static partial class DownloadRoutes
{
    /// <summary>The JSON documents by name, as the shell program writes them too.</summary>
    public static ImmutableArray<(string Name, Func<CandidateReport, string> Write)> Documents { get; } =
    [
        ("exam", report => DocumentJson.Write(ExamDocument.Of(report.Standing.Exam))),
        ("standing", report => DocumentJson.Write(StandingDocument.Of(report.Candidate, report.Standing, report.Basis, report.Study))),
        ("forecast", report => DocumentJson.Write(ForecastDocument.Of(report))),
        ("plan", report => DocumentJson.Write(PlanDocument.Of(report))),
    ];

    /// <summary>Maps handout, calendar, JSON documents and the demo's files.</summary>
    public static void MapDownloads(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/case/{key}/handout", async (string key, HttpContext context, Workbench bench, PlanKeeper keeper) =>
            await bench.FindAsync(key, name => context.Request.Query[name], changes: true, context.RequestAborted) is { } view
                ? Handed(context, Handout.Html(await keeper.WithHistoryAsync(view.Report, view.Case, context.RequestAborted)))
                : Results.NotFound());
        routes.MapGet("/case/{key}/plan.ics", async (string key, HttpContext context, Workbench bench, TimeProvider time) =>
            await bench.FindAsync(key, name => context.Request.Query[name], changes: false, context.RequestAborted) is { } view
                ? Attached(PlanCalendar.Write(view.Plan, view.Case.Candidate, view.Case.Exam.Name, time.GetUtcNow().ToInstant(), view.Report.Material), "text/calendar", "plan.ics")
                : Results.NotFound());
        foreach ((string name, Func<CandidateReport, string> write) in Documents)
        {
            routes.MapGet($"/case/{{key}}/{name}.json", async (string key, HttpContext context, Workbench bench) =>
                await bench.FindAsync(key, field => context.Request.Query[field], changes: name == "plan", context.RequestAborted) is { } view ? Attached(write(view.Report), "application/json", name + ".json") : Results.NotFound());
        }

        routes.MapGet("/examples/{name}", (string name) =>
            DemoFile(name) is { } path ? Results.File(path, "text/plain; charset=utf-8", name) : Results.NotFound());
    }

    /// <summary>A handout carries its own style sheet and fonts, so its policy allows exactly these and nothing else.</summary>
    internal static IResult Handed(HttpContext context, string html)
    {
        string[] styles = [.. StyleElement().Matches(html).Select(m => "'sha256-" + Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(m.Groups[1].Value))) + "'")];
        context.Response.Headers.ContentSecurityPolicy =
            $"default-src 'none'; style-src {(styles.Length == 0 ? "'none'" : string.Join(' ', styles))}; img-src data:; font-src data:; "
            + "base-uri 'none'; frame-ancestors 'none'; form-action 'none'";
        return Results.Text(html, "text/html", Encoding.UTF8);
    }

    private static IResult Attached(string text, string type, string name) => Results.File(Encoding.UTF8.GetBytes(text), type + "; charset=utf-8", name);

    private static string? DemoFile(string name)
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "examples", "museum-registrar");

        // Compared with what is there, so that no name leads out of the folder.
        return Directory.EnumerateFiles(folder).FirstOrDefault(path => Path.GetFileName(path) == name);
    }

    [GeneratedRegex("<style[^>]*>(.*?)</style>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex StyleElement();
}
