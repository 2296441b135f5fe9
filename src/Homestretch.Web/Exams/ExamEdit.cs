using System.Collections.Immutable;

using Homestretch.Files;
using Homestretch.Files.Exams.Editing;
using Homestretch.Web.Uploads;

namespace Homestretch.Web.Exams;

/// <summary>An exam while a coach works on it.</summary>
public sealed record ExamEdit : IDraft
{
    // Each step back holds the whole form.
    private const int MostSteps = 20;

    /// <summary>The exam it will be a new version of; null for a new exam.</summary>
    public string? ExamKey { get; init; }

    /// <summary>The form.</summary>
    public ExamDraft Draft { get; init; } = ExamDraft.Blank;

    /// <summary>The exam file where that is edited itself; null where the form is.</summary>
    public string? Text { get; init; }

    /// <summary>Name of the file that the exam came from.</summary>
    public string FileName { get; init; } = "exam.yaml";

    /// <summary>The table that was pasted last.</summary>
    public string Pasted { get; init; } = "";

    /// <summary>Forms before rows were removed or replaced, latest first, with what was done.</summary>
    public ImmutableList<(ExamDraft Before, string What)> Steps { get; init; } = [];

    /// <summary>Problems of uploaded files, where that is what is shown.</summary>
    public ImmutableArray<FileProblem> Problems { get; init; } = [];

    /// <inheritdoc/>
    public long Bytes => 4096 + (2 * ((long)(Text?.Length ?? 0) + Pasted.Length)) + ((1 + Steps.Count) * 200L * Rows(Draft));

    /// <summary>The same with another form, which can be taken back.</summary>
    public ExamEdit Changed(ExamDraft draft, string what) => this with { Draft = draft, Steps = [(Draft, what), .. Steps.Take(MostSteps - 1)] };

    private static int Rows(ExamDraft draft) => 1 + draft.Sections.Sum(s => 1 + s.Topics.Sum(t => 1 + t.Subtopics.Length));
}
