using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;

using NodaTime.Text;

namespace Homestretch.Files.Exams.Editing;

/// <summary>An exam as typed into a form: every value as text, right or wrong. Rows in which nothing was typed count for nothing.</summary>
public sealed record ExamDraft
{
    /// <summary>The exam's name.</summary>
    public string Name { get; init; } = "";

    /// <summary>Edition of the blueprint.</summary>
    public string Edition { get; init; } = "";

    /// <summary>Title of the publication.</summary>
    public string SourceTitle { get; init; } = "";

    /// <summary>Its date, year-month-day.</summary>
    public string SourceDate { get; init; } = "";

    /// <summary>Its address or place.</summary>
    public string SourceWhere { get; init; } = "";

    /// <summary>How the sections decide the whole, in the words of the exam file; empty for every section by itself.</summary>
    public string Rule { get; init; } = "";

    /// <summary>Cut score of all sections together.</summary>
    public CutDraft Total { get; init; } = CutDraft.None;

    /// <summary>Days to wait after a failed attempt.</summary>
    public string WaitingDays { get; init; } = "";

    /// <summary>Attempts in twelve months.</summary>
    public string AttemptsPerYear { get; init; } = "";

    /// <summary>Weak below this percentage.</summary>
    public string WeakBelow { get; init; } = "";

    /// <summary>Strong from this percentage.</summary>
    public string StrongFrom { get; init; } = "";

    /// <summary>Whatever else is worth knowing.</summary>
    public string Notes { get; init; } = "";

    /// <summary>Its sections.</summary>
    public ImmutableArray<SectionDraft> Sections { get; init; } = [];

    /// <summary>A form to fill in.</summary>
    public static ExamDraft Blank { get; } = new() { Rule = "every section", Sections = [SectionDraft.Blank] };

    /// <summary>An exam as it would be typed.</summary>
    public static ExamDraft Of(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        bool bands = exam.Bands != BandEdges.Default;
        return new()
        {
            Name = exam.Name,
            Edition = exam.Edition ?? "",
            SourceTitle = exam.Source?.Title ?? "",
            SourceDate = exam.Source is { } source ? LocalDatePattern.Iso.Format(source.Date) : "",
            SourceWhere = exam.Source?.Where ?? "",
            Rule = ExamFile.RuleText(exam.Rule),
            Total = CutDraft.Of(exam.TotalCut),
            WaitingDays = Text(exam.Retake?.WaitingDays),
            AttemptsPerYear = Text(exam.Retake?.AttemptsPerYear),
            WeakBelow = bands ? ExamFileText.Number(Math.Round(exam.Bands.WeakBelow * 100, 12)) : "",
            StrongFrom = bands ? ExamFileText.Number(Math.Round(exam.Bands.StrongFrom * 100, 12)) : "",
            Notes = exam.Notes ?? "",
            Sections = [.. exam.Sections.Select(Of)],
        };
    }

    private static SectionDraft Of(Section section) => new(
        section.Name,
        Text(section.ScoredItems),
        section.UnscoredItems == 0 ? "" : Text(section.UnscoredItems),
        Text(section.Minutes),
        section.Options == 0 ? "none" : Text(section.Options),
        CutDraft.Of(section.Cut),
        [.. section.Topics.Select(t => new TopicDraft(t.Name, WeightText.Write(t.Weight), [.. t.Subtopics.Select(s => new SubtopicDraft(s.Name, s.Weight is { } weight ? WeightText.Write(weight) : ""))]))]);

    private static string Text(int? value) => value?.ToString(CultureInfo.InvariantCulture) ?? "";
}
