using System.Collections.Immutable;
using System.Text;

using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;
using Homestretch.Files.StudyLogs;

namespace Homestretch.Files.Tests.Evidences;

/// <summary>Files taken apart into cells and put together again.</summary>
public sealed class SheetCellsTests
{
    [Fact]
    public void ColumnsHaveTheirDocumentedNames()
    {
        Assert.Equal(
            ["candidate", "attempt", "kind", "date", "topic", "subtopic", "item", "correct", "seconds", "sure", "items", "percent", "band", "note", "chosen", "key", "against exam"],
            EvidenceFile.Cells.Columns);
        Assert.Equal(["candidate", "date", "topic", "subtopic", "minutes", "how", "block", "note"], StudyLogFile.Cells.Columns);
    }

    [Fact]
    public void CellsStayAsWrittenAndEveryNoteIsKept()
    {
        SheetLine line = Split("Test;Name;Kind;Day;Topic;%;Note;remark\nold;Tobias;official;20.10.2026;Pests;57,1 %;\"a;b\";c\n").Single();

        Assert.Equal(2, line.Line);
        Assert.Equal(["Tobias", "old", "official", "20.10.2026", "Pests", "", "", "", "", "", "", "57,1 %", "", "a;b; c", "", "", ""], line.Cells);
    }

    [Fact]
    public void RowsPutTogetherComeApartTheSame()
    {
        ImmutableArray<SheetLine> lines = Split("candidate,attempt,kind,date,topic,correct,items,note\n\"O'Neil, \"\"Al\"\"\",a|b,quiz,2026-11-22,T,1,2,=1+1\n\nB,a;b,quiz,2026-11-22,T,2,2,\n");

        ImmutableArray<SheetLine> again = Split(EvidenceFile.Cells.Write(lines.Select(l => (IReadOnlyList<string>)l.Cells)));

        Assert.Equal(["O'Neil, \"Al\"", "B"], lines.Select(l => l.Cells[0]));
        Assert.Equal(lines.SelectMany(l => l.Cells), again.SelectMany(l => l.Cells));
    }

    [Fact]
    public void WhatIsNoSuchFileIsSaid()
        => Assert.Equal(1, EvidenceFile.Cells.Split("odd.csv", Encoding.UTF8.GetBytes("a,b\n1,2\n")).Problems[0].Line);

    private static ImmutableArray<SheetLine> Split(string text) => EvidenceFile.Cells.Split("x.csv", Encoding.UTF8.GetBytes(text)).Value!.Lines;
}
