using System.Text;

using Homestretch.Core.Planning.Replanning;
using Homestretch.Files.Documents;
using Homestretch.Files.Plans;

using NodaTime;

namespace Homestretch.Files.Tests.Plans;

/// <summary>Earlier plans: those that the program prints, and the malformed ones under cases/plan.</summary>
public class PlanFileTests
{
    public static TheoryData<string> Malformed =>
        [.. Directory.GetFiles(TestFiles.Cases("plan"), "*.json").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Malformed))]
    public void A_malformed_file_gives_clear_problems(string name)
    {
        string path = Path.Combine(TestFiles.Cases("plan"), name + ".json");
        ReadResult<EarlierPlan> result = PlanFile.Read(path, TestExams.Registrar, "Mara Venn");
        Assert.False(result.IsOk);
        Assert.All(result.Problems, p => Assert.Equal(path, p.File));
        ProblemChecks.Match(result.Problems, Path.ChangeExtension(path, ".expected.txt"));
    }

    [Fact]
    public void A_missing_file_is_a_problem()
        => Assert.Equal("There is no such file.", Assert.Single(PlanFile.Read("nowhere.json", TestExams.Registrar, null).Problems).Message);

    [Fact]
    public void What_the_program_prints_is_read_back_whole()
    {
        CandidateReport report = SampleReports.ThreeWeeks;

        EarlierPlan plan = Read(report);

        Assert.Equal((report.Plan!.From, report.Plan.ExamDay, report.Plan.LightFrom, report.Plan.ExamDay), (plan.From, plan.ExamDay, plan.LightFrom, plan.CalendarDay));
        Assert.Equal(
            report.Plan.Blocks.Select(b => new EarlierBlock(b.Id, new Interval(b.Start.ToInstant(), b.End.ToInstant()), b.Topic.Name, b.Purpose, BlockFate.Planned)),
            plan.Blocks);
        Assert.All(report.Standing.Topics, t => Assert.Equal(t.Level.Mean, plan.Levels[t.Topic.Name]));
    }

    [Fact]
    public void A_line_of_plans_is_read_back_with_what_became_of_every_block()
    {
        CandidateReport report = ReplannedReports.AWeekLater;

        EarlierPlan plan = Read(report);

        Assert.Equal(report.Plan!.CalendarDay, plan.CalendarDay);
        Assert.NotEmpty(report.Plan.Revision!.Earlier);
        Assert.Equal(report.Plan.Revision.Earlier, plan.Blocks.Where(b => b.Fate != BlockFate.Planned));
    }

    [Fact]
    public void A_mark_at_the_start_of_the_file_and_keys_of_later_versions_do_no_harm()
    {
        string json = DocumentJson.Write(PlanDocument.Of(SampleReports.ThreeWeeks)).Replace("\"zone\":", "\"mood\": {\"of\": [1, null, true]},\n\"zone\":", StringComparison.Ordinal);

        ReadResult<EarlierPlan> result = PlanFile.Parse("plan.json", [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(json)], SampleReports.ThreeWeeks.Standing.Exam, null);

        Assert.True(result.IsOk, string.Join('\n', result.Problems));
    }

    [Fact]
    public void A_plan_cut_anywhere_is_refused_in_words()
    {
        byte[] whole = Encoding.UTF8.GetBytes(DocumentJson.Write(PlanDocument.Of(SampleReports.ThreeWeeks)).TrimEnd());
        for (int length = 0; length < whole.Length; length += 97)
        {
            ReadResult<EarlierPlan> result = PlanFile.Parse("plan.json", whole.AsSpan(0, length), SampleReports.ThreeWeeks.Standing.Exam, null);

            FileProblem problem = Assert.Single(result.Problems);
            Assert.StartsWith("This is not JSON", problem.Message, StringComparison.Ordinal);
            Assert.DoesNotMatch(ProblemChecks.TypeName(), problem.Message);
        }
    }

    private static EarlierPlan Read(CandidateReport report)
    {
        ReadResult<EarlierPlan> result = PlanFile.Parse("plan.json", Encoding.UTF8.GetBytes(DocumentJson.Write(PlanDocument.Of(report))), report.Standing.Exam, report.Candidate);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        return result.Value!;
    }
}
