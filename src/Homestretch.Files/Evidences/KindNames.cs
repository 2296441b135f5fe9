using Homestretch.Core.Evidence;

namespace Homestretch.Files.Evidences;

/// <summary>How a file names the kinds of attempts.</summary>
internal static class KindNames
{
    private static readonly Dictionary<string, AttemptKind> ByName = new(StringComparer.Ordinal)
    {
        ["diagnostic"] = AttemptKind.Diagnostic,
        ["diagnostictest"] = AttemptKind.Diagnostic,
        ["quiz"] = AttemptKind.Quiz,
        ["practiceexam"] = AttemptKind.PracticeExam,
        ["practicetest"] = AttemptKind.PracticeExam,
        ["official"] = AttemptKind.Official,
        ["officialexam"] = AttemptKind.Official,
        ["officialreport"] = AttemptKind.Official,
    };

    /// <summary>Finds a kind without regard to case, spaces and hyphens.</summary>
    public static bool TryFind(string text, out AttemptKind kind) =>
        ByName.TryGetValue(text.ToLowerInvariant().Replace(" ", "", StringComparison.Ordinal).Replace("-", "", StringComparison.Ordinal).Replace("_", "", StringComparison.Ordinal), out kind);

    /// <summary>The name in messages and in the documentation.</summary>
    public static string NameOf(AttemptKind kind) => kind switch
    {
        AttemptKind.Diagnostic => "diagnostic",
        AttemptKind.Quiz => "quiz",
        AttemptKind.PracticeExam => "practice exam",
        _ => "official",
    };
}
