using System.Text;

namespace Homestretch.Store.Tests;

/// <summary>Files taken apart into rows.</summary>
public sealed class KeptRowsTests
{
    [Fact]
    public void What_one_row_says_of_a_test_is_kept_with_everybodys_rows_of_it()
    {
        const string header = "candidate,attempt,kind,date,topic,item,correct,against exam\n";
        ILookup<string, EvidenceRow> rows = KeptRows.EvidenceByPerson(
            [
                ("one.csv", Encoding.UTF8.GetBytes(header + "Ada,mock,diagnostic,2026-11-20,Law,1,yes,\nADA,quiz,quiz,2026-11-21,Law,1,no,\n")),
                ("two.csv", Encoding.UTF8.GetBytes(header + "Bo,Mock,diagnostic,2026-11-20,Law,1,no,0.3 easier\n")),
            ],
            Samples.Noon).Value!;

        Assert.Equal(["0.3 easier", ""], rows["ada"].Select(r => r.AgainstExam));
        Assert.Equal([("one.csv", 2), ("one.csv", 3)], rows["Ada"].Select(r => (r.OriginFile!, r.OriginLine!.Value)));
        Assert.Equal("0.3 easier", Assert.Single(rows["Bo"]).AgainstExam);
    }
}
