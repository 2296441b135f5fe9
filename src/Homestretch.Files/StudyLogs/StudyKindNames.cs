using Homestretch.Core.Evidence;

namespace Homestretch.Files.StudyLogs;

/// <summary>How a study log names the ways to study.</summary>
internal static class StudyKindNames
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "write learn, practise, quiz, review, worked examples or recall";

    private static readonly Dictionary<string, StudyKind> _byName = new(StringComparer.Ordinal)
    {
        ["learn"] = StudyKind.Teaching,
        ["class"] = StudyKind.Teaching,
        ["workedexamples"] = StudyKind.WorkedExamples,
        ["workedexample"] = StudyKind.WorkedExamples,
        ["practise"] = StudyKind.PracticeItems,
        ["practice"] = StudyKind.PracticeItems,
        ["quiz"] = StudyKind.PracticeItems,
        ["shortquiz"] = StudyKind.PracticeItems,
        ["recall"] = StudyKind.Retrieval,
        ["review"] = StudyKind.Review,
        ["lightreview"] = StudyKind.Review,
    };

    /// <summary>Finds a way to study without regard to case, spaces and hyphens.</summary>
    public static bool TryFind(string text, out StudyKind kind)
        => _byName.TryGetValue(string.Concat(text.ToLowerInvariant().Where(c => c is not (' ' or '-' or '_'))), out kind);

    /// <summary>The name nearest to what was written, or null.</summary>
    public static string? Nearest(string text) => NearestName.Suggest(text, ["learn", "practise", "quiz", "review", "worked examples", "recall"]);
}
