using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Files;
using Homestretch.Files.QuizItems;
using Homestretch.Files.Resources;
using Homestretch.Store;

namespace Homestretch.Web.Exams;

/// <summary>What there is to study from for an exam, as read against its blueprint.</summary>
/// <param name="Catalogue">The latest catalogue of resources; null where there is none, or it cannot be read.</param>
/// <param name="Items">All items to practise on; null where there are none, or they cannot be read.</param>
/// <param name="Problems">What is wrong with files that no longer fit the blueprint.</param>
public sealed record ExamMaterials(ResourceCatalogue? Catalogue, QuizItemSet? Items, ImmutableArray<FileProblem> Problems)
{
    /// <summary>Reads the files of an exam that count.</summary>
    public static ExamMaterials Read(IEnumerable<StoredExamFile> files, Exam exam)
    {
        StoredExamFile[] counting = [.. files.Where(f => f.RemovedAt is null)];
        StoredExamFile[] items = [.. counting.Where(f => f.Role == ExamFileRole.QuizItems)];
        ReadResult<ResourceCatalogue>? catalogue = counting.LastOrDefault(f => f.Role == ExamFileRole.Resources) is { } latest ? ResourceFile.Parse(latest.Name, latest.Content, exam) : null;
        ReadResult<QuizItemSet>? set = items.Length == 0 ? null : QuizItemFile.ParseAll([.. items.Select(f => (f.Name, (ReadOnlyMemory<byte>)f.Content))], exam);
        return new(catalogue?.Value, set?.Value, [.. catalogue?.Problems ?? [], .. set?.Problems ?? []]);
    }
}
