using System.Collections.Frozen;
using System.Collections.Immutable;

using Homestretch.Files.Printing;

using UglyToad.PdfPig;
using UglyToad.PdfPig.Outline;

namespace Homestretch.Files.Handouts;

/// <summary>Handouts as one PDF: the same document as the HTML handout, printed.</summary>
public static class HandoutPdf
{
    /// <summary>Most people in one PDF.</summary>
    public const int MostPeople = 60;

    // Printing one more handout takes a small part of a second; a busy computer takes longer.
    private static readonly TimeSpan ExtraPerPerson = TimeSpan.FromSeconds(1);

    /// <summary>The handouts in one PDF with an outline of their names and headings. Each begins on an odd page, so that it begins on a sheet of its own when both sides are printed.</summary>
    /// <param name="printer">Prints.</param>
    /// <param name="reports">From one to <see cref="MostPeople"/> reports, in the order of the PDF.</param>
    /// <param name="paper">The paper.</param>
    /// <param name="cancellation">Stops the printing.</param>
    /// <exception cref="PrintingException">There is no Chromium, it failed, or it took too long.</exception>
    public static async Task<byte[]> PrintAsync(PdfPrinter printer, ImmutableArray<CandidateReport> reports, PaperSize paper, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(printer);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(reports.Length, MostPeople);
        TimeSpan extra = ExtraPerPerson * (reports.Length - 1);
        byte[] pdf = await printer.PrintAsync(Handout.Html(reports, paper, FrozenSet<int>.Empty), extra, cancellation);
        FrozenSet<int> backs = WithOddPages(pdf, reports.Length);
        return backs.Count == 0 ? pdf : await printer.PrintAsync(Handout.Html(reports, paper, backs), extra, cancellation);
    }

    /// <summary>The handouts that are an odd number of pages long and have another one after them. No style sheet can say "begin on an odd page" to Chromium, so the pages are counted.</summary>
    private static FrozenSet<int> WithOddPages(byte[] pdf, int handouts)
    {
        if (handouts == 1)
        {
            return [];
        }

        using PdfDocument document = PdfDocument.Open(pdf);
        int[] starts = document.TryGetBookmarks(out Bookmarks? bookmarks) ? [.. bookmarks.Roots.OfType<DocumentBookmarkNode>().Select(b => b.PageNumber)] : [];
        return starts.Length == handouts
            ? Enumerable.Range(0, handouts - 1).Where(i => (starts[i + 1] - starts[i]) % 2 == 1).ToFrozenSet()
            : throw new PrintingException("The PDF could not be laid out for printing on both sides: its outline does not name every person. Print fewer people at once.");
    }
}
