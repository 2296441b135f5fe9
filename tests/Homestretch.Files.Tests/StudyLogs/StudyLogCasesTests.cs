using System.Globalization;

using Homestretch.Core.Evidence;
using Homestretch.Files.StudyLogs;

namespace Homestretch.Files.Tests.StudyLogs;

/// <summary>The files under cases/study-log and cases/study-log-good.</summary>
public class StudyLogCasesTests
{
    public static TheoryData<string> Malformed => TestFiles.CaseNames("study-log");

    public static TheoryData<string> Good => TestFiles.CaseNames("study-log-good");

    [Theory]
    [MemberData(nameof(Malformed))]
    public void A_malformed_file_gives_clear_problems(string name)
    {
        string path = Path.Combine(TestFiles.Cases("study-log"), name + ".csv");
        ReadResult<StudyLog> result = StudyLogFile.ReadAll([path], TestExams.Registrar);
        Assert.False(result.IsOk);
        Assert.All(result.Problems, p => Assert.Equal(path, p.File));
        ProblemChecks.Match(result.Problems, Path.ChangeExtension(path, ".expected.txt"));
    }

    [Theory]
    [MemberData(nameof(Good))]
    public void An_odd_but_good_file_gives_the_sessions_in_it(string name)
    {
        string path = Path.Combine(TestFiles.Cases("study-log-good"), name + ".csv");
        ReadResult<StudyLog> result = StudyLogFile.ReadAll([path], TestExams.Registrar);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Equal(File.ReadAllLines(Path.ChangeExtension(path, ".expected.txt")), result.Value!.Sessions.Select(s => Line(s.Session)));
    }

    [Fact]
    public void Several_files_are_read_as_one_and_all_problems_named_at_once()
    {
        string folder = TestFiles.Cases("study-log");
        string[] paths = [Path.Combine(folder, "how.csv"), Path.Combine(folder, "nowhere.csv"), Path.Combine(folder, "minutes.csv")];

        ReadResult<StudyLog> result = StudyLogFile.ReadAll(paths, TestExams.Registrar);

        Assert.Equal(paths.Order(StringComparer.Ordinal), result.Problems.Select(p => p.File).Distinct().Order(StringComparer.Ordinal));
        Assert.Contains(result.Problems, p => p.File == paths[1] && p.Message == "There is no such file.");
    }

    [Fact]
    public void The_same_session_in_two_files_would_count_twice()
    {
        byte[] file = "candidate,date,topic,minutes,how\nMara Venn,2026-11-25,Cataloguing,50,learn\n"u8.ToArray();

        ReadResult<StudyLog> result = StudyLogFile.ParseAll([("one.csv", file), ("two.csv", file)], TestExams.Registrar);

        FileProblem problem = Assert.Single(result.Problems);
        Assert.Equal(("two.csv", 2), (problem.File, problem.Line));
        Assert.Contains("in line 2 of one.csv", problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Sessions_are_found_by_person_whatever_the_case()
    {
        StudyLog log = StudyLogFile.ReadAll([Path.Combine(TestFiles.Cases("study-log-good"), "spreadsheet.csv")], TestExams.Registrar).Value!;

        Assert.Equal(["Mara Venn", "Ida Fell"], log.Candidates);
        Assert.Equal(2, log.SessionsOf("ida fell").Length);
        Assert.Equal([3, 5], log.SessionsOf("Mara Venn").Select(s => s.Line));
    }

    private static string Line(StudySession session) => string.Join(" | ",
        session.Candidate, session.Date.ToString("uuuu-MM-dd", CultureInfo.InvariantCulture), session.Topic, session.Minutes, session.Kind, session.Block ?? "-");
}
