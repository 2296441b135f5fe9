using System.Text;
using System.Text.RegularExpressions;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;
using Homestretch.Files.Calendars;
using Homestretch.Files.Candidates;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.StudyLogs;
using Homestretch.Files.WordLists;

using NodaTime;

namespace Homestretch.Files.Tests;

/// <summary>The examples in the documentation and the evidence and calendars of the demo.</summary>
public partial class DocumentedExamplesTests
{
    private static readonly DateTimeZone London = DateTimeZoneProviders.Tzdb["Europe/London"];

    private static readonly Interval Horizon = new(Instant.FromUtc(2026, 11, 25, 8, 0), Instant.FromUtc(2026, 12, 17, 0, 0));

    private static Exam Exam => ExamFile.Read(Demo("exam.yaml")).Value!;

    public static TheoryData<string> EvidenceExamples => [.. Blocks("evidence-file.md", "csv")];

    public static TheoryData<string> CalendarExamples => [.. Blocks("calendar-files.md", "ics")];

    [Theory]
    [MemberData(nameof(EvidenceExamples))]
    public void An_evidence_example_can_be_read(string text)
    {
        ReadResult<EvidenceSheet> result = EvidenceFile.Parse("example.csv", Encoding.UTF8.GetBytes(text), Exam);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.NotEmpty(result.Value!.Attempts);
    }

    [Fact]
    public void The_study_log_example_can_be_read()
    {
        ReadResult<StudyLog> result = StudyLogFile.ParseAll([("example.csv", Encoding.UTF8.GetBytes(Assert.Single(Blocks("study-log.md", "csv"))))], Exam);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Equal(170, result.Value!.Sessions.Sum(s => s.Session.Minutes));
    }

    [Fact]
    public void The_candidates_example_can_be_read()
    {
        ReadResult<CandidatesSheet> result = CandidatesFile.Parse(
            "example.csv", Encoding.UTF8.GetBytes(Assert.Single(Blocks("candidates-sheet.md", "csv"))), new SheetDefaults(null, null, new(2026, 11, 28), new(2027, 5, 29)));
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        Assert.Equal([4, 10, 0], result.Value!.Rows.Select(r => r.Free!.Weekly.Length));
        Assert.All(result.Value.Rows, r => Assert.Empty(r.Problems));
    }

    [Fact]
    public void The_words_example_and_the_demo_can_be_read()
    {
        ReadResult<WordList> example = WordFile.ParseAll([("example.csv", Encoding.UTF8.GetBytes(Assert.Single(Blocks("words.md", "csv"))))], Exam);
        ReadResult<WordList> demo = WordFile.ReadAll([Demo("mara-venn.words.csv")], Exam);

        Assert.True(example.IsOk && demo.IsOk, string.Join('\n', example.Problems.Concat(demo.Problems)));
        Assert.Equal([2, 2, 0], example.Value!.Words.Select(w => w.Answers.Length));
        Assert.Equal(14, demo.Value!.Words.Length);
    }

    [Theory]
    [MemberData(nameof(CalendarExamples))]
    public void A_calendar_example_can_be_read(string text)
    {
        ReadResult<BusyTimes> result = BusyFile.Parse("example.ics", text, London, Horizon);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));

        // Choir on 8 and 15 December (25 November is after the one on the 24th, 1 December is an exception), and a weekend away.
        Assert.Equal(3, result.Value!.Busy.Length);
    }

    [Fact]
    public void Maras_good_topic_hides_a_weak_subtopic()
    {
        EvidenceSheet sheet = Evidence("mara-venn");
        Assert.Equal(["Mara Venn"], sheet.Candidates);
        Assert.Equal([(AttemptKind.Diagnostic, new LocalDate(2026, 11, 22), 52), (AttemptKind.Quiz, new LocalDate(2026, 11, 24), 8)], sheet.Attempts.Select(a => (a.Kind, a.Date, a.Observations.Length)));
        ItemResponse[] diagnostic = [.. sheet.Attempts[0].Observations.Cast<ItemResponse>()];
        Assert.Equal(30, diagnostic.Count(r => r.Correct));
        Assert.All(diagnostic, r => Assert.True(r is { Subtopic: not null, Seconds: > 0, Sureness: >= 0 }));
        CandidateStanding standing = StandingCalculator.Calculate(Exam, sheet.Attempts, new LocalDate(2026, 11, 25));
        TopicStanding cataloguing = standing.Topics.Single(t => t.Topic.Name == "Cataloguing");
        Assert.NotEqual(Band.Weak, cataloguing.Level.Band);
        Assert.Equal(["Describing and measuring"], cataloguing.Subtopics.Where(s => s.HiddenHole).Select(s => s.Name));
    }

    [Fact]
    public void Tobias_has_only_an_official_report_and_may_have_failed_the_second_section_narrowly()
    {
        Attempt report = Assert.Single(Evidence("tobias-okell").Attempts);
        Assert.Equal((AttemptKind.Official, new LocalDate(2026, 10, 20)), (report.Kind, report.Date));
        Exam exam = Exam;
        TopicCount[] counts = [.. report.Observations.Cast<TopicCount>()];
        Assert.Equal(exam.Topics.Select(t => (t.Name, t.Items)), counts.Select(c => (c.Topic, c.Items)));
        (int Low, int High)[] sections = [.. exam.Sections.Select(s => counts.Where(c => s.Topics.Any(t => t.Name == c.Topic)).Aggregate((0, 0), (sum, c) => (sum.Item1 + c.LowCorrect, sum.Item2 + c.HighCorrect)))];
        int[] cuts = [.. exam.Sections.Select(s => s.Cut!.RequiredCorrect(s.ScoredItems))];
        Assert.True(sections[0].Low >= cuts[0] - 1);
        Assert.True(sections[1].Low < cuts[1] && sections[1].High >= cuts[1]);
        double middle = (sections[1].Low + sections[1].High) / 2.0;
        Assert.InRange(middle, cuts[1] - 3, cuts[1]);
    }

    [Fact]
    public void Ines_has_counts_by_topic()
    {
        EvidenceSheet sheet = Evidence("ines-harrow");
        Assert.All(sheet.Attempts.SelectMany(a => a.Observations), o => Assert.True(o is TopicCount { IsExact: true }));
        Assert.All(sheet.Attempts, a => Assert.Equal(8, a.Observations.Length));
    }

    [Fact]
    public void Evidence_of_all_three_can_be_given_at_once()
    {
        ReadResult<EvidenceSheet> all = EvidenceFile.ReadAll([Demo("mara-venn.csv"), Demo("tobias-okell.csv"), Demo("ines-harrow.csv")], Exam);
        Assert.True(all.IsOk, string.Join('\n', all.Problems));
        Assert.Equal(["Mara Venn", "Tobias Okell", "Ines Harrow"], all.Value!.Candidates);
    }

    [Fact]
    public void Maras_calendar_holds_work_choir_a_weekend_and_a_call_from_another_zone()
    {
        IReadOnlyList<Interval> busy = Busy("mara-venn");
        Instant London(int month, int day, int hour, int minute) => new LocalDateTime(2026, month, day, hour, minute).InZoneStrictly(DocumentedExamplesTests.London).ToInstant();
        bool IsBusy(Instant at) => busy.Any(b => b.Contains(at));
        Assert.True(IsBusy(London(11, 25, 10, 0)));          // work
        Assert.False(IsBusy(London(11, 28, 11, 0)));         // the market is only perhaps
        Assert.False(IsBusy(London(12, 1, 20, 0)));          // no choir
        Assert.False(IsBusy(London(12, 8, 20, 0)));          // moved
        Assert.True(IsBusy(London(12, 9, 18, 30)));          // to here
        Assert.True(IsBusy(London(12, 15, 20, 0)));          // choir again
        Assert.True(IsBusy(London(12, 5, 0, 0)) && IsBusy(London(12, 6, 23, 59)) && !IsBusy(London(12, 7, 0, 0)));
        Assert.False(IsBusy(London(12, 11, 10, 0)));         // a day off work
        Assert.False(IsBusy(London(12, 14, 14, 0)));         // half a day off work
        Assert.True(IsBusy(London(11, 26, 18, 30)) && IsBusy(London(11, 26, 19, 14)) && !IsBusy(London(11, 26, 19, 15)));
    }

    [Theory]
    [InlineData("tobias-okell")]
    [InlineData("ines-harrow")]
    public void The_other_calendars_can_be_read(string name) => Assert.NotEmpty(Busy(name));

    private static EvidenceSheet Evidence(string name)
    {
        ReadResult<EvidenceSheet> result = EvidenceFile.Read(Demo(name + ".csv"), Exam);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        return result.Value!;
    }

    private static System.Collections.Immutable.ImmutableArray<Interval> Busy(string name)
    {
        ReadResult<BusyTimes> result = BusyFile.Read(Demo(name + ".busy.ics"), London, Horizon);
        Assert.True(result.IsOk, string.Join('\n', result.Problems));
        return result.Value!.Busy;
    }

    private static string Demo(string name) => Path.Combine(TestFiles.Root, "examples", "museum-registrar", name);

    private static IEnumerable<string> Blocks(string document, string language) =>
        Fence().Matches(File.ReadAllText(Path.Combine(TestFiles.Root, "docs", document)).ReplaceLineEndings("\n"))
            .Where(m => m.Groups[1].Value == language)
            .Select(m => m.Groups[2].Value);

    [GeneratedRegex("^```(\\w+)\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();
}
