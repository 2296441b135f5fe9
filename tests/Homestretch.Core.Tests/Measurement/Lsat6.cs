using Homestretch.Core.Measurement;
using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Section 6 of the Law School Admission Test, 1000 persons, 5 items (Bock &amp; Lieberman, Psychometrika 35, 1970),
/// as in the data set `bock` of R's psych package 2.2.9.</summary>
internal static class Lsat6
{
    public static ResponseMatrix Data { get; } = Read();

    private static ResponseMatrix Read()
    {
        List<Answer> patterns = [];
        List<int> counts = [];
        foreach (string[] row in ReferenceTable.Rows("lsat6.csv"))
        {
            patterns.AddRange(row[..5].Select(cell => cell == "1" ? Answer.Right : Answer.Wrong));
            counts.Add(int.Parse(row[5], null));
        }

        return ResponseMatrix.FromPatterns(["Q1", "Q2", "Q3", "Q4", "Q5"], patterns.ToArray(), counts.ToArray());
    }
}
