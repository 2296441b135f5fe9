using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;

namespace Homestretch.Files.Tests;

/// <summary>Every file under cases/ is wrong; NAME.expected.txt lists its problems, one "line: text that must occur" per line, in order.</summary>
public class MalformedYamlTests
{
    private static readonly string[] NeverShown = ["System.", "YamlDotNet", "Homestretch.", "NodaTime", "Exception", "   at ", "Nullable", "Int32", "String", "`1"];

    public static TheoryData<string, string> Cases()
    {
        TheoryData<string, string> cases = [];
        foreach (string kind in new[] { "exam", "free-time" })
        {
            foreach (string file in Directory.EnumerateFiles(TestFiles.Cases(kind), "*.yaml").Order(StringComparer.Ordinal))
            {
                cases.Add(kind, Path.GetFileNameWithoutExtension(file));
            }
        }

        return cases;
    }

    [Fact]
    public void There_are_enough_cases()
    {
        Assert.InRange(Directory.GetFiles(TestFiles.Cases("exam"), "*.yaml").Length, 24, int.MaxValue);
        Assert.InRange(Directory.GetFiles(TestFiles.Cases("free-time"), "*.yaml").Length, 12, int.MaxValue);
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public async Task All_problems_of_a_malformed_file_are_named(string kind, string name)
    {
        string path = Path.Combine(TestFiles.Cases(kind), name + ".yaml");
        string[] expected = await File.ReadAllLinesAsync(Path.ChangeExtension(path, ".expected.txt"), TestContext.Current.CancellationToken);
        ImmutableArray<FileProblem> problems = kind == "exam" ? Problems(ExamFile.Read(path)) : Problems(FreeTimeFile.Read(path));

        Assert.NotEmpty(expected);
        string found = string.Join('\n', problems);
        Assert.True(expected.Length == problems.Length, $"{expected.Length} problems expected, found:\n{found}");
        foreach ((string line, FileProblem problem) in expected.Zip(problems))
        {
            int colon = line.IndexOf(": ", StringComparison.Ordinal);
            Assert.Equal(line[..colon], problem.Line.ToString(System.Globalization.CultureInfo.InvariantCulture));
            Assert.Contains(line[(colon + 2)..], problem.Message, StringComparison.Ordinal);
            Assert.Equal(path, problem.File);
            Assert.EndsWith(".", problem.Message, StringComparison.Ordinal);
            Assert.DoesNotContain('\n', problem.Message);
            Assert.All(NeverShown, word => Assert.DoesNotContain(word, problem.Message, StringComparison.Ordinal));
        }
    }

    [Theory]
    [InlineData("exam")]
    [InlineData("free-time")]
    public void A_missing_file_and_a_folder_are_problems(string kind)
    {
        string missing = Path.Combine(TestFiles.Root, "no-such-folder", "file.yaml");
        string folder = TestFiles.Cases(kind);
        FileProblem[] problems = kind == "exam"
            ? [ExamFile.Read(missing).Problems.Single(), ExamFile.Read(folder).Problems.Single(), ExamFile.Read("").Problems.Single()]
            : [FreeTimeFile.Read(missing).Problems.Single(), FreeTimeFile.Read(folder).Problems.Single(), FreeTimeFile.Read("").Problems.Single()];
        Assert.Equal(["There is no such file.", "This is a folder; give the file inside it.", "The file cannot be read; check its name and that you may open it."], problems.Select(p => p.Message));
    }

    [Fact]
    public void A_huge_file_is_refused()
    {
        ReadResult<Exam> result = ExamFile.Parse("exam.yaml", "exam: " + new string('a', 600_000));
        FileProblem problem = Assert.Single(result.Problems);
        Assert.Contains("longer than 500 kB", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("[")]
    [InlineData("{")]
    [InlineData("- ")]
    [InlineData("? ")]
    [InlineData("a: b\n")]
    [InlineData("a\n ")]
    [InlineData(":")]
    [InlineData("&a ")]
    [InlineData("\"")]
    [InlineData("- {day: Mondxy}\n")]
    public void A_file_made_to_be_slow_is_answered_soon(string piece)
    {
        string text = "zone: " + string.Concat(Enumerable.Repeat(piece, 450_000 / piece.Length));
        System.Diagnostics.Stopwatch clock = System.Diagnostics.Stopwatch.StartNew();
        ReadResult<FreeTime> result = FreeTimeFile.Parse("free.yaml", text);
        Assert.False(result.IsOk);

        // Measured at 0.05 to 1 s on two slow cores; the limit only catches a blow-up.
        Assert.InRange(clock.Elapsed, TimeSpan.Zero, TimeSpan.FromSeconds(20));
    }

    private static ImmutableArray<FileProblem> Problems<T>(ReadResult<T> result)
        where T : class
    {
        Assert.False(result.IsOk);
        Assert.Null(result.Value);
        return result.Problems;
    }
}
