using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>An exam as read from its file, with the item counts that follow from the weights.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Edition">Edition of the blueprint, where given.</param>
/// <param name="Source">Where the figures were published, where given.</param>
/// <param name="Rule"><c>every-section</c>, <c>total</c> or <c>total-with-section-minimums</c>.</param>
/// <param name="ScoredItems">Scored items of all sections.</param>
/// <param name="Cut">Fewest correct answers in all that can pass.</param>
/// <param name="TotalPublishedCut">The total's cut score as published; null when every section decides for itself.</param>
/// <param name="Retake">Rules for a retake, where given.</param>
/// <param name="Bands">Where weak ends and strong begins.</param>
/// <param name="Sections">Sections in the order of the file.</param>
public sealed record ExamDocument(
    string Exam,
    string? Edition,
    SourceFields? Source,
    string Rule,
    int ScoredItems,
    int Cut,
    string? TotalPublishedCut,
    RetakeFields? Retake,
    BandEdgesFields Bands,
    ImmutableArray<SectionFields> Sections)
{
    /// <summary>The document of an exam.</summary>
    public static ExamDocument Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return new(
            exam.Name,
            exam.Edition,
            exam.Source is { } source ? new(source.Title, LocalDatePattern.Iso.Format(source.Date), source.Where) : null,
            Words.Of(exam.Rule),
            exam.ScoredItems,
            exam.RequiredCorrect,
            exam.TotalCut is { } cut ? Words.Of(cut) : null,
            exam.Retake is { } retake ? new(retake.WaitingDays, retake.AttemptsPerYear) : null,
            new(exam.Bands.WeakBelow, exam.Bands.StrongFrom),
            [.. exam.Sections.Select((section, s) => SectionFields.Of(section, exam.Topics.Where(t => t.SectionIndex == s)))]);
    }
}
