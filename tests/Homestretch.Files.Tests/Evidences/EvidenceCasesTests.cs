using System.Globalization;

using Homestretch.Core.Evidence;
using Homestretch.Files.Evidences;

namespace Homestretch.Files.Tests.Evidences;

/// <summary>The files under cases/evidence and cases/evidence-good.</summary>
public class EvidenceCasesTests
{
    public static TheoryData<string> Malformed => TestFiles.CaseNames("evidence");

    public static TheoryData<string> Good => TestFiles.CaseNames("evidence-good");

    [Theory]
    [MemberData(nameof(Malformed))]
    public void A_malformed_file_gives_clear_problems(string name)
    {
        string path = Path.Combine(TestFiles.Cases("evidence"), name + ".csv");
        ReadResult<EvidenceSheet> result = EvidenceFile.Read(path, TestExams.Registrar);
        Assert.False(result.IsOk);
        Assert.All(result.Problems, p => Assert.Equal(path, p.File));
        ProblemChecks.Match(result.Problems, Path.ChangeExtension(path, ".expected.txt"));
    }

    [Theory]
    [MemberData(nameof(Good))]
    public void An_odd_but_good_file_gives_the_counts_in_it(string name)
    {
        string path = Path.Combine(TestFiles.Cases("evidence-good"), name + ".csv");
        ReadResult<EvidenceSheet> result = EvidenceFile.Read(path, TestExams.Registrar);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        string[] expected = File.ReadAllLines(Path.ChangeExtension(path, ".expected.txt"));
        Assert.Equal(expected, result.Value!.Attempts.SelectMany(Lines));
    }

    private static IEnumerable<string> Lines(Attempt attempt) => attempt.Observations
        .GroupBy(o => (o.Topic, o.Subtopic))
        .Select(g => string.Join(" | ",
            attempt.Candidate, attempt.Name, attempt.Kind, attempt.Date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), g.Key.Topic, g.Key.Subtopic ?? "-",
            g.Sum(o => o is TopicCount c ? c.LowCorrect : ((ItemResponse)o).Correct ? 1 : 0),
            g.Sum(o => o is TopicCount c ? c.HighCorrect : ((ItemResponse)o).Correct ? 1 : 0),
            g.Sum(o => o.ItemCount)));
}
