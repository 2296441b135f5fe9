using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.Documents;
using Homestretch.Files.StudyLogs;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Sentences and tables that read the same in colour, without it, and on paper.</summary>
internal static class Tables
{
    /// <summary>A sentence of its own, broken between words.</summary>
    public static void Sentence(this IAnsiConsole console, string text) => console.Write(new Text(text + "\n"));

    /// <summary>A heading with an empty line before it.</summary>
    public static void Heading(this IAnsiConsole console, string text)
    {
        console.WriteLine();
        console.Write(new Text(text + "\n", new Style(decoration: Decoration.Bold)));
    }

    /// <summary>A point in a list, its further lines set in.</summary>
    public static void Point(this IAnsiConsole console, string text)
    {
        Grid grid = new();
        grid.AddColumn(new GridColumn().NoWrap().PadLeft(0).PadRight(1));
        grid.AddColumn(new GridColumn().PadLeft(0).PadRight(0));
        grid.AddRow(new Text("-"), new Text(text));
        console.Write(grid);
    }

    /// <summary>What a study log says and what follows from it, where there is one.</summary>
    public static void Study(this IAnsiConsole console, StudyReport? study, Exam exam)
    {
        foreach (string sentence in study?.Sentences(exam) ?? [])
        {
            console.Point(sentence);
        }
    }

    /// <summary>What the figures rest on, in sentences.</summary>
    public static void Basis(this IAnsiConsole console, StandingBasis basis, CandidateStanding standing)
    {
        foreach (string sentence in basis.Sentences(standing))
        {
            console.Sentence(sentence);
        }
    }

    /// <summary>A table without boxes: a line under the head, space between columns.</summary>
    /// <param name="heads">Column heads. One that starts with '>' sets its column flush right, one that starts with '=' keeps its cells on one line.</param>
    public static Table Table(params ReadOnlySpan<string> heads)
    {
        Table table = new() { Border = TableBorder.Simple };
        foreach (string head in heads)
        {
            bool right = head.StartsWith('>');
            bool whole = right || head.StartsWith('=');
            table.AddColumn(new TableColumn(new Text(whole ? head[1..] : head))
            {
                Alignment = right ? Justify.Right : Justify.Left,
                NoWrap = whole,
                Padding = new Padding(0, 0, 1, 0),
            });
        }

        return table;
    }

    /// <summary>Adds a row of plain text.</summary>
    public static void Row(this Table table, params ReadOnlySpan<string> cells)
    {
        Text[] row = new Text[cells.Length];
        for (int i = 0; i < row.Length; i++)
        {
            row[i] = new Text(cells[i]);
        }

        table.AddRow(row);
    }

    /// <summary>A level as a shape and a word: the shape alone or a colour alone would not do.</summary>
    public static string Mark(Band band) => (band switch { Band.Weak => "▼ ", Band.Borderline => "◆ ", _ => "● " }) + Words.Of(band);
}
