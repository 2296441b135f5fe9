using System.Collections.Immutable;

using Homestretch.Core.Blueprints;

namespace Homestretch.Web.Exams;

/// <summary>What another version of an exam means for those who prepare for it.</summary>
/// <param name="Before">The exam as it counts now; null where that version cannot be read.</param>
/// <param name="After">The exam as it would count.</param>
/// <param name="Differences">What differs, in words.</param>
/// <param name="Refused">People with whose results, study or words it does not go; such a version is not kept.</param>
/// <param name="People">People with their pass chance as things stand, before and after; at most <see cref="MostPeople"/>.</param>
/// <param name="Cases">Cases that prepare for the exam.</param>
/// <param name="Materials">Files beside the blueprint that would no longer fit, with the first reason.</param>
public sealed record ExamChange(
    Exam? Before,
    Exam After,
    ImmutableArray<string> Differences,
    ImmutableArray<ExamRefusal> Refused,
    ImmutableArray<(string Key, string Candidate, double? Before, double After)> People,
    int Cases,
    ImmutableArray<string> Materials)
{
    /// <summary>People whose pass chances are worked out.</summary>
    public const int MostPeople = 30;

    /// <summary>The reason for new plans, in one sentence for the candidates.</summary>
    /// <param name="otherwise">What is said where nothing can be compared.</param>
    public string Reason(string otherwise = "The blueprint changed.") => Before is null ? otherwise : ExamDifference.Reason(Before, After);
}
