using System.Collections.Immutable;

using Homestretch.Store;

namespace Homestretch.Web.Api;

/// <summary>An exam with the versions of its file, and the files to study from. What the file says is at <c>/exams/{key}/document</c>.</summary>
/// <param name="Key">Names the exam in addresses.</param>
/// <param name="Name">The exam's name.</param>
/// <param name="Versions">Versions of the exam file, oldest first; the latest that is not taken out counts.</param>
/// <param name="Files">What there is to study from, oldest first.</param>
public sealed record ExamFields(string Key, string Name, ImmutableArray<KeptFile> Versions, ImmutableArray<KeptFile> Files)
{
    /// <summary>The fields of a kept exam.</summary>
    public static ExamFields Of(StoredExam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return new(
            exam.Key,
            exam.Name,
            [.. exam.Versions.Select(v => new KeptFile(v.Id, "exam", v.Name, CaseFields.Time(v.At), v.RemovedAt is { } removed ? CaseFields.Time(removed) : null))],
            [.. exam.Files.Select(f => new KeptFile(f.Id, Word(f.Role), f.Name, CaseFields.Time(f.At), f.RemovedAt is { } removed ? CaseFields.Time(removed) : null))]);
    }

    /// <summary>The word for a role.</summary>
    public static string Word(ExamFileRole role) => role == ExamFileRole.Resources ? "resources" : "quiz-items";
}
