using System.Collections.Immutable;
using System.Globalization;

namespace Homestretch.Web.Exams;

/// <summary>Somebody whose case could no longer be read with another version of the exam; such a version is not kept.</summary>
/// <param name="CaseKey">The case.</param>
/// <param name="Candidate">The person.</param>
/// <param name="What">The topics that would no longer exist, or what else is wrong.</param>
public sealed record ExamRefusal(string CaseKey, string Candidate, string What)
{
    /// <summary>What stands before the list of such people, after what "it" is.</summary>
    public const string Why = "has no place for what these people's results, study or words are about";

    /// <summary>What can be done instead.</summary>
    public const string Instead = "Keep these topics under their names. Where the exam itself has changed, keep it as a new exam, and make new cases for it.";

    private const int MostInASentence = 12;

    /// <summary>All of them in one sentence.</summary>
    public static string Sentence(ImmutableArray<ExamRefusal> refused)
        => string.Join("; ", refused.Take(MostInASentence)) + (refused.Length > MostInASentence ? string.Create(CultureInfo.InvariantCulture, $"; and {refused.Length - MostInASentence} more.") : ".");

    /// <summary>Such as <c>Mara Venn: Cataloguing</c>.</summary>
    public override string ToString() => $"{Candidate}: {What}";
}
