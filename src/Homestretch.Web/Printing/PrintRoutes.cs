using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files;
using Homestretch.Files.Handouts;
using Homestretch.Files.Printing;
using Homestretch.Web.Assuming;
using Homestretch.Web.Candidates;
using Homestretch.Web.Hosting;

namespace Homestretch.Web.Printing;

/// <summary>Handouts as PDFs: of one case under the assumptions of its page, and of many cases in one file.</summary>
public static class PrintRoutes
{
    /// <summary>Address name of a case to print; may stand several times.</summary>
    public const string CaseField = "case";

    /// <summary>Address name of the paper: <c>a4</c> or <c>letter</c>.</summary>
    public const string PaperField = "paper";

    private const string Type = "application/pdf";

    // A busy computer plans for a second or two each, and one more to print.
    private static readonly TimeSpan _longestForOne = TimeSpan.FromMinutes(3);
    private static readonly TimeSpan _longestForMany = TimeSpan.FromMinutes(10);

    /// <summary>Maps the PDFs.</summary>
    public static void MapPrinting(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/case/{key}/handout.pdf", OneAsync).WithRequestTimeout(_longestForOne);
        routes.MapGet("/handouts.pdf", ManyAsync).WithRequestTimeout(_longestForMany);
    }

    private static async Task<IResult> OneAsync(string key, HttpContext context, Workbench bench, PlanKeeper keeper, PdfPrinter printer)
    {
        if (Paper(context) is not { } paper)
        {
            return WrongPaper(context);
        }

        return await bench.FindAsync(key, name => context.Request.Query[name], changes: true, context.RequestAborted) is { } view
            ? await PrintedAsync(context, printer, [await keeper.WithHistoryAsync(view.Report, view.Case, context.RequestAborted)], paper, key + ".pdf")
            : Results.NotFound();
    }

    private static async Task<IResult> ManyAsync(HttpContext context, Workbench bench, PlanKeeper keeper, PdfPrinter printer)
    {
        string[] keys = [.. context.Request.Query[CaseField].OfType<string>().Distinct()];
        if (keys.Length == 0)
        {
            return new SeeOther("/handouts?nobody=yes");
        }

        if (keys.Length > HandoutPdf.MostPeople)
        {
            return Refused(
                context, StatusCodes.Status400BadRequest, "Too many people for one PDF", string.Create(CultureInfo.InvariantCulture, $"One PDF holds at most {HandoutPdf.MostPeople} people; {keys.Length} were chosen. Go back and make two."));
        }

        if (Paper(context) is not { } paper)
        {
            return WrongPaper(context);
        }

        ImmutableArray<CandidateReport>.Builder reports = ImmutableArray.CreateBuilder<CandidateReport>(keys.Length);
        foreach (string key in keys)
        {
            if (await bench.FindAsync(key, _ => null, changes: true, context.RequestAborted) is not { } view)
            {
                return Refused(context, StatusCodes.Status404NotFound, "One of these people is not there", $"There is no case '{key}', or it can no longer be read. Go back, leave it out, and try again.");
            }

            reports.Add(await keeper.WithHistoryAsync(view.Report, view.Case, context.RequestAborted));
        }

        return await PrintedAsync(context, printer, reports.ToImmutable(), paper, "handouts.pdf");
    }

    private static async Task<IResult> PrintedAsync(HttpContext context, PdfPrinter printer, ImmutableArray<CandidateReport> reports, PaperSize paper, string name)
    {
        try
        {
            return Results.File(await HandoutPdf.PrintAsync(printer, reports, paper, context.RequestAborted), Type, name);
        }
        catch (PrintingException e)
        {
            return Refused(context, StatusCodes.Status503ServiceUnavailable, "No PDF could be made", e.Message);
        }
    }

    private static PaperSize? Paper(HttpContext context) => context.Request.Query[PaperField].ToString() switch
    {
        "" or "a4" => PaperSize.A4,
        "letter" => PaperSize.Letter,
        _ => null,
    };

    private static IResult WrongPaper(HttpContext context)
        => Refused(context, StatusCodes.Status400BadRequest, "There is no such paper", "The paper in the address is a4 or letter.");

    private static IResult Refused(HttpContext context, int status, string title, string what)
    {
        context.Features.Set(new ProblemText(title, what));
        return Results.StatusCode(status);
    }
}
