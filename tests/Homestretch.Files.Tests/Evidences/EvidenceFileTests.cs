using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Files.Evidences;

namespace Homestretch.Files.Tests.Evidences;

public class EvidenceFileTests
{
    private const string Header = "candidate,attempt,kind,date,item,topic,subtopic,correct,seconds,sure,items,percent,band\n";

    // Counts worked out by hand from the rounding rule: k of n items is 100 k / n percent.
    [Theory]
    [InlineData("58", 12, 7, 7)] // 58.33
    [InlineData("58 %", 12, 7, 7)]
    [InlineData("58,3%", 12, 7, 7)]
    [InlineData("58.33 %", 12, 7, 7)]
    [InlineData("0", 12, 0, 0)]
    [InlineData("100 %", 12, 12, 12)]
    [InlineData("12", 8, 1, 1)] // 12.5, an exact half rounded down
    [InlineData("13", 8, 1, 1)] // the same rounded up
    [InlineData("50", 400, 198, 202)] // 49.5 to 50.5
    [InlineData("41-60 %", 12, 5, 7)] // 41.67, 50, 58.33
    [InlineData("41 % to 60 %", 12, 5, 7)]
    [InlineData("41–60", 10, 5, 6)]
    [InlineData("40-60", 10, 4, 6)]
    [InlineData("0-20 %", 12, 0, 2)] // 16.67; 25 is outside
    [InlineData("41-60 %", 200, 81, 120)] // 40.5 rounds up into the band, 60.5 out of it
    [InlineData("61-80 %", 200, 121, 160)] // so that no count lies in two bands
    public void A_percentage_means_the_counts_that_round_to_it(string text, int items, int low, int high)
    {
        string column = text.Length > 3 && (text.Contains('-', StringComparison.Ordinal) || text.Contains('–', StringComparison.Ordinal) || text.Contains("to", StringComparison.Ordinal)) ? $",\"{text}\"" : $"\"{text}\",";
        Observation seen = Assert.Single(Assert.Single(Read($"{Header}A,r,official,2026-10-20,,Pests,,,,,{items},{column}\n").Attempts).Observations);
        TopicCount count = Assert.IsType<TopicCount>(seen);
        Assert.Equal((low, high, items), (count.LowCorrect, count.HighCorrect, count.Items));
    }

    [Theory]
    [InlineData("guess", 0.0)]
    [InlineData("Unsure", 0.333333)]
    [InlineData("SURE", 0.666667)]
    [InlineData("certain", 1.0)]
    [InlineData("0", 0.0)]
    [InlineData("75", 0.75)]
    [InlineData("75 %", 0.75)]
    [InlineData("2%", 0.02)]
    [InlineData("100", 1.0)]
    public void Sureness_is_a_percentage_or_a_word(string text, double expected) =>
        Assert.Equal(expected, Item($"yes,12,{text}").Sureness!.Value, 5);

    [Theory]
    [InlineData("1", true)]
    [InlineData("YES", true)]
    [InlineData("y", true)]
    [InlineData("TRUE", true)]
    [InlineData("Right", true)]
    [InlineData("correct", true)]
    [InlineData("✓", true)]
    [InlineData("0", false)]
    [InlineData("No", false)]
    [InlineData("n", false)]
    [InlineData("False", false)]
    [InlineData("wrong", false)]
    [InlineData("incorrect", false)]
    [InlineData("✗", false)]
    [InlineData("omitted", false)]
    public void Answers_come_in_many_words(string text, bool expected) => Assert.Equal(expected, Item($"{text},,").Correct);

    [Fact]
    public void A_blank_is_omitted_where_options_are_given_or_said_to_be()
    {
        const string Options = "candidate,attempt,kind,date,item,topic,correct,chosen,key\n";
        ImmutableArray<Observation> seen = Read(
            Options + "A,d,diagnostic,2026-11-20,1,Pests,,b,B\nA,d,diagnostic,2026-11-20,2,Pests,,,B\nA,d,diagnostic,2026-11-20,3,Pests,skipped,,B\nA,d,diagnostic,2026-11-20,4,Pests,no,C,\n",
            TestExams.Registrar).Attempts[0].Observations;
        Assert.Equal(
            [(true, false, "b", "B"), (false, true, null, "B"), (false, true, null, "B"), (false, false, "C", null)],
            seen.Cast<ItemResponse>().Select(r => (r.Correct, r.Omitted, r.Chosen, r.Key)));
    }

    [Fact]
    public void Seconds_may_have_a_decimal_comma() => Assert.Equal(12.5, Item("yes,\"12,5\",").Seconds);

    [Theory]
    [InlineData("Light/heat", "", "Light/heat", null)]
    [InlineData("Light/heat / Lamps", "", "Light/heat", "Lamps")]
    [InlineData("light/HEAT", " lamps ", "Light/heat", "Lamps")]
    [InlineData("Water/Basics", "", "Water", "Basics")]
    [InlineData("Leaks", "", "Water", "Leaks")]
    [InlineData("leaks", "Leaks", "Water", "Leaks")]
    [InlineData("Paper", "", "Paper", null)]
    public void Topics_and_subtopics_are_found_as_people_write_them(string topic, string subtopic, string expectedTopic, string? expectedSubtopic)
    {
        Observation seen = Read($"{Header}A,q,quiz,2026-11-20,1,{topic},{subtopic},yes,,,,,\n", TestExams.Awkward).Attempts[0].Observations[0];
        Assert.Equal((expectedTopic, expectedSubtopic), (seen.Topic, seen.Subtopic));
    }

    [Theory]
    [InlineData("Basics", "", "write 'Light/heat / Basics' or 'Water / Basics'")]
    [InlineData("Paper", "Ink", "has no subtopics; leave 'Ink' out")]
    [InlineData("Water / Lamps", "", "has no subtopic 'Lamps'")]
    public void A_name_that_may_mean_two_things_or_none_is_refused(string topic, string subtopic, string expected)
    {
        ReadResult<EvidenceSheet> result = Parse($"{Header}A,q,quiz,2026-11-20,1,{topic},{subtopic},yes,,,,,\n", TestExams.Awkward);
        Assert.Contains(expected, Assert.Single(result.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void One_attempt_in_two_files_comes_together()
    {
        ReadResult<EvidenceSheet> result = EvidenceFile.ParseAll(
            [File("a.csv", "Mara Venn,first,diagnostic,2026-11-22,1,Pests,,yes,,,,,\n"), File("b.csv", "mara venn,FIRST,diagnostic,22.11.2026,2,Pests,,no,,,,,\nTobias Okell,first,quiz,2026-11-23,1,Pests,,no,,,,,\n")],
            TestExams.Registrar);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Equal([("Mara Venn", "first", 2), ("Tobias Okell", "first", 1)], result.Value!.Attempts.Select(a => (a.Candidate, a.Name, a.Observations.Length)));
        Assert.Equal(2, result.Value!.AttemptsOf("MARA VENN")[0].Observations.Length);
    }

    [Fact]
    public void Contradictions_between_files_name_both_places()
    {
        ReadResult<EvidenceSheet> result = EvidenceFile.ParseAll(
            [File("a.csv", "Mara Venn,first,diagnostic,2026-11-22,1,Pests,,yes,,,,,\n"), File("b.csv", "Mara Venn,first,quiz,2026-11-23,1,Pests,,no,,,,,\n")],
            TestExams.Registrar);
        Assert.Equal(3, result.Problems.Length);
        Assert.All(result.Problems, p => Assert.Equal(("b.csv", 2), (p.File, p.Line)));
        Assert.All(result.Problems, p => Assert.Contains("in line 2 of a.csv", p.Message, StringComparison.Ordinal));
    }

    [Fact]
    public void Problems_of_all_files_are_shown_at_once()
    {
        ReadResult<EvidenceSheet> result = EvidenceFile.ReadAll(["nowhere/one.csv", "nowhere/two.csv"], TestExams.Registrar);
        Assert.Equal(["nowhere/one.csv:1: There is no such file.", "nowhere/two.csv:1: There is no such file."], result.Problems.Select(p => p.ToString()));
    }

    [Fact]
    public void A_folder_and_a_huge_file_are_refused()
    {
        Assert.Contains("folder", Assert.Single(EvidenceFile.Read(TestFiles.Root, TestExams.Registrar).Problems).Message, StringComparison.Ordinal);
        ReadResult<EvidenceSheet> huge = EvidenceFile.Parse("huge.csv", new byte[(20 * 1024 * 1024) + 1], TestExams.Registrar);
        Assert.Contains("larger than 20 MB", Assert.Single(huge.Problems).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_large_file_is_read()
    {
        StringBuilder text = new(Header);
        for (int i = 1; i <= 20000; i++)
        {
            text.Append("Candidate ").Append(i % 100).Append(",practice,practice exam,2026-11-20,").Append(i).Append(",Pests,,yes,30,sure,,,\n");
        }

        Assert.Equal(100, Read(text.ToString()).Attempts.Length);
    }

    [Theory]
    [InlineData("4 points easier", 0.04, null)]
    [InlineData("4,5 Points Harder", -0.045, null)]
    [InlineData("1 % easier than the exam +/- 0.5", 0.01, 0.005)]
    [InlineData("4 percentage points harder±2 points", -0.04, 0.02)]
    [InlineData("as the exam", 0.0, null)]
    [InlineData("As the exam ± 3", 0.0, 0.03)]
    public void How_a_test_compares_with_the_exam_holds_for_everybody_who_took_it(string text, double points, double? sd)
    {
        double guess = TestExams.Registrar.MeanGuessChance;
        string rows = $"candidate,attempt,kind,date,topic,correct,items,against exam\nA,t,quiz,2026-11-20,Pests,4,8,\nA,t,quiz,2026-11-20,Cataloguing,4,8,\"{text}\"\nB,T,quiz,2026-11-20,Pests,4,8,\nB,u,quiz,2026-11-20,Pests,4,8,\n";
        EvidenceSheet sheet = Read(rows);
        Assert.Null(sheet.Attempts[2].Form);
        foreach (Attempt attempt in sheet.Attempts.Take(2))
        {
            Assert.Equal(points, attempt.Form!.Points(guess), 1e-12);
            Assert.Equal(sd ?? double.NaN, attempt.Form.PointsSd(guess) ?? double.NaN, 1e-12);
        }

        // Said in one of two files, it holds in both.
        EvidenceSheet other = Read($"{Header}C,t,quiz,2026-11-20,,Pests,,4,,,8,,\n");
        Assert.Equal(sheet.Attempts[0].Form, sheet.With(other).Attempts[^1].Form);
        Assert.Equal(sheet.Attempts[0].Form, other.With(sheet).Attempts[0].Form);
    }

    private static (string, ReadOnlyMemory<byte>) File(string name, string rows) => (name, Encoding.UTF8.GetBytes(Header + rows));

    private static ItemResponse Item(string answers) =>
        Assert.IsType<ItemResponse>(Read($"{Header}A,q,quiz,2026-11-20,1,Pests,,{answers},,,\n").Attempts[0].Observations[0]);

    private static EvidenceSheet Read(string text, Exam? exam = null)
    {
        ReadResult<EvidenceSheet> result = Parse(text, exam ?? TestExams.Registrar);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        return result.Value!;
    }

    private static ReadResult<EvidenceSheet> Parse(string text, Exam exam) => EvidenceFile.Parse("e.csv", Encoding.UTF8.GetBytes(text), exam);
}
