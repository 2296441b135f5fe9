using System.Collections.Immutable;

using Homestretch.Files.Exams.Editing;

namespace Homestretch.Files.Exams.Pasting;

/// <summary>What was understood of a table that was pasted.</summary>
/// <param name="Lines">Every line that holds anything, in order.</param>
/// <param name="Sections">The sections found, with their topics; one without a name where the table names none. Empty where there is no topic.</param>
/// <param name="Findings">What the coach should look at: sums that do not come to 100, a total that differs, units that are mixed.</param>
/// <param name="Problem">Why nothing could be read; null where something was.</param>
public sealed record PastedTable(ImmutableArray<PastedLine> Lines, ImmutableArray<SectionDraft> Sections, ImmutableArray<string> Findings, string? Problem)
{
    /// <summary>Most characters that are read.</summary>
    public const int MostCharacters = 200_000;

    /// <summary>Most lines that are read.</summary>
    public const int MostLines = 1_000;

    /// <summary>Reads a table from a published document or a spreadsheet.</summary>
    public static PastedTable Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (string.IsNullOrWhiteSpace(text))
        {
            return Refused("There is nothing to read yet. Paste the table with the topics and their weights.");
        }

        if (text.Length > MostCharacters)
        {
            return Refused($"This is far more than a table of topics: {text.Length:#,0} characters, and at most {MostCharacters:#,0} are read. Paste only the table.");
        }

        int lines = 1 + text.AsSpan().Count('\n');
        return lines > MostLines
            ? Refused($"This is far more than a table of topics: {lines:#,0} lines, and at most {MostLines:#,0} are read. Paste only the table.")
            : TableReader.Read(text);
    }

    private static PastedTable Refused(string problem) => new([], [], [], problem);
}
