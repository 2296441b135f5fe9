using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;
using Homestretch.Store;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what an export wrote or an import read.</summary>
internal static class MoveProse
{
    public static MovedDocument Of(string file, StoreCounts counts)
        => new(file, counts.Exams, counts.Cases, counts.EvidenceRows, counts.Sessions, counts.Plans, counts.Decisions, counts.Words);

    public static void Write(IAnsiConsole console, string done, MovedDocument moved) => console.Sentence(
        $"{done} {moved.File}: {Figures.Plural(moved.Exams, "exam")}, {Figures.Plural(moved.Cases, "case")} with {Figures.Plural(moved.EvidenceRows, "row")} of evidence, "
        + $"{Figures.Plural(moved.Sessions, "study session")}, {Figures.Plural(moved.Plans, "plan")}, {Figures.Plural(moved.Decisions, "decision")} and {Figures.Plural(moved.Words, "word")}.");
}
