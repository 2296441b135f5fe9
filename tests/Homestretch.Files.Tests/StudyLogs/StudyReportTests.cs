using System.Collections.Immutable;
using System.Text;

using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;
using Homestretch.Files.StudyLogs;

using NodaTime;

namespace Homestretch.Files.Tests.StudyLogs;

/// <summary>What a log says in words.</summary>
public class StudyReportTests
{
    private const string Head = "candidate,date,topic,minutes,how\n";

    private const string Studied = Head
        + "Mara Venn,2026-11-25,Cataloguing,50,learn\nMara Venn,2026-11-26,Cataloguing,50,practise\nMara Venn,2026-11-27,Pests,45,learn\nMara Venn,2026-12-05,Pests,45,learn\n";

    private static readonly LocalDate Day = new(2026, 12, 2);

    [Fact]
    public void Study_is_summed_up_with_what_it_is_worth()
    {
        (CandidateStanding standing, StudyReport? study) = Person(Studied).On(Day);

        ImmutableArray<string> sentences = study!.Sentences(TestExams.Registrar);

        Assert.Matches(@"^Study so far: 3 sessions, 2 h 25 min \(Cataloguing 1 h 40 min, Preventive conservation 45 min\)\. As things stand it is worth \+\d(\.\d)? items?(: without it the pass chance would be .+ %, not .+ %|; the pass chance is .+ % with it or without it)\.$", sentences[0]);
        Assert.Matches(@"^No test has been taken after study yet, so learning counts as fast as assumed: a first hour on an average topic adds about 2\.7 points\.", sentences[1]);
        Assert.Equal("1 session after 2 December 2026 does not count yet.", sentences[2]);
        Assert.Equal(3, sentences.Length);
        Assert.Equal(3, standing.Study.Sessions.Length);
    }

    [Theory]
    [InlineData(36, 40, "faster than assumed")]
    [InlineData(14, 40, "slower than assumed")]
    public void A_quiz_after_much_study_says_how_fast_it_went_and_how_sure_that_is(int correct, int items, string pace)
    {
        string log = Head + string.Concat(Enumerable.Range(20, 9).Select(d => $"Mara Venn,2026-11-{d},Cataloguing,180,learn\n"));
        (_, StudyReport? study) = Person(log, Quiz(correct, items)).On(Day);

        string sentence = study!.Sentences(TestExams.Registrar)[1];

        Assert.StartsWith("Going by the 1 test taken after study, learning is ", sentence, StringComparison.Ordinal);
        Assert.Contains(pace, sentence, StringComparison.Ordinal);
        Assert.Matches(@"adds about \d\.\d points \(assumed: 2\.7\), nine times in ten between \d\.\d and \d+\.\d; \d+ % of the doubt is gone, and it is still uncertain\.", sentence);
        Assert.Equal(
            Figures.Percent(study.Done.Now.PassChance) != Figures.Percent(study.Done.AtAssumedRate!.PassChance),
            sentence.Contains("Had learning been taken as assumed, the pass chance now would read ", StringComparison.Ordinal));
    }

    [Fact]
    public void A_quiz_that_says_nothing_is_called_that()
    {
        (_, StudyReport? study) = Person(Head + "Mara Venn,2026-11-25,Cataloguing,25,learn\n", Quiz(3, 5)).On(Day);

        Assert.StartsWith("The 1 test taken after study says next to nothing about the speed of learning yet", study!.Sentences(TestExams.Registrar)[1], StringComparison.Ordinal);
    }

    [Fact]
    public void No_session_is_said_and_so_are_people_whom_only_the_log_knows()
    {
        (CandidateStanding standing, StudyReport? study) = Person(Head + "Ida Fell,2026-11-25,Pests,45,learn\n").On(Day);

        Assert.Equal(["No study has been logged so far.", "The log also names Ida Fell, of whom the evidence knows nothing."], study!.Sentences(TestExams.Registrar));
        Assert.Null(standing.Rate);
    }

    [Fact]
    public void Without_a_log_nothing_is_said() => Assert.Null(new StudiedCandidate(TestExams.Registrar, "Mara Venn", [Diagnostic("Mara Venn")], null).On(Day).Study);

    [Fact]
    public void The_last_day_is_that_of_the_latest_test_or_session()
    {
        Assert.Equal(new LocalDate(2026, 12, 5), Person(Studied).LastDay);
        Assert.Equal(Day, Person(Head + "Mara Venn,2026-11-25,Pests,45,learn\n", Quiz(3, 5)).LastDay);
    }

    [Fact]
    public void With_ten_people_the_room_says_what_is_usual()
    {
        string[] people = [.. Enumerable.Range(0, 10).Select(i => $"Person {i}")];
        string log = Head + string.Concat(people.SelectMany(p => Enumerable.Range(20, 6).Select(d => $"{p},2026-11-{d},Cataloguing,120,learn\n")));
        Attempt[] everybody = [.. people.SelectMany(p => new[] { Diagnostic(p), Quiz(18, 20) with { Candidate = p } })];
        StudiedCandidate person = new(TestExams.Registrar, "Person 3", [.. everybody], Log(log));

        ImmutableArray<string> sentences = person.On(Day).Study!.Sentences(TestExams.Registrar);

        Assert.Contains("usual in this cohort", sentences[1], StringComparison.Ordinal);
        Assert.Matches(@"^How fast people learn was learned from the 10 people with study and a test after it: a usual rate of \d\.\d+ times the assumed one\.$", sentences[2]);
    }

    private static StudiedCandidate Person(string log, params Attempt[] more) => new(TestExams.Registrar, "Mara Venn", [Diagnostic("Mara Venn"), .. more], Log(log));

    private static StudyLog Log(string text) => StudyLogFile.ParseAll([("log.csv", Encoding.UTF8.GetBytes(text))], TestExams.Registrar).Value!;

    private static Attempt Diagnostic(string candidate) => new(
        candidate,
        "diagnostic",
        AttemptKind.Diagnostic,
        new LocalDate(2026, 11, 14),
        [.. TestExams.Registrar.Topics.Select(t => TopicCount.Exact(t.Name, 6, 10))]);

    private static Attempt Quiz(int correct, int items) => new("Mara Venn", "quiz", AttemptKind.Quiz, Day, [TopicCount.Exact("Cataloguing", correct, items)]);
}
