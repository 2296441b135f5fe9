namespace Homestretch.Cli.Tests;

/// <summary>Command lines that make no sense: exit status 2, one plain line, a hint.</summary>
public sealed class UsageTests
{
    private const string Exam = "examples/museum-registrar/exam.yaml";
    private const string Evidence = "examples/museum-registrar/mara-venn.csv";
    private const string Words = "examples/museum-registrar/mara-venn.words.csv";
    private const string Bank = "examples/museum-registrar/bank.csv";
    private const string Free = "examples/museum-registrar/mara-venn.free.yaml";

    /// <summary>Command lines, and what must be said.</summary>
    public static TheoryData<string[], string> WrongLines() => new()
    {
        { [], "Say what to do: exam, standing, forecast, plan, assumptions, decide" },
        { ["bogus"], "bogus" },
        { ["exam"], "EXAM.yaml" },
        { ["exam", ""], "file name is empty" },
        { ["exam", Exam, "another.yaml"], "another.yaml" },
        { ["exam", Exam, "--nonsense"], "nonsense" },
        { ["exam", Exam, "--candidate", "Mara Venn"], "candidate" },
        { ["standing", Exam], "EVIDENCE.csv" },
        { ["standing", Exam, Evidence, "--candidate"], "--candidate needs a value" },
        { ["standing", Exam, Evidence, "--candidate", "--json"], "--candidate needs a value" },
        { ["standing", Exam, Evidence, "--as-of", "last week"], "'last week'" },
        { ["forecast", Exam, Evidence, "--as-of", "2026-02-30"], "'2026-02-30'" },
        { ["standing", Exam, Evidence, "--bank"], "--bank needs a value" },
        { ["standing", Exam, Evidence, "--cohort", "--json"], "--cohort needs a value" },
        { ["forecast", Exam, Evidence, "--cohort", ""], "file name is empty" },
        { ["items", Exam, Evidence, "--model", "4pl"], "'4pl'" },
        { ["items", Exam, Evidence, "--out", Evidence], "given twice" },
        { ["plan", Exam, Evidence], "--free" },
        { ["plan", Exam, Evidence, "--free", Free], "--exam-day" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "16.12.2026"], "'16.12.2026'" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "noon"], "'noon'" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--policy", "best"], "'best'" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--ics", ""], "file name is empty" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--avoid", "Catalogs"], "did you mean 'Cataloguing'?" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--include", "Pottery"], "its topics are Cataloguing, " },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--at-least", "Cataloguing=-5"], "'Cataloguing=-5' is not" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--at-least", "Cataloguing=9000"], "At least 9000 minutes were asked for" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--avoid", "Cataloguing", "--include", "cataloguing"], "cannot be both avoided and included" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--pin", "noon=Cataloguing"], "'noon' is neither" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--pin", "Cataloguing"], "'Cataloguing' is not" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--pin", "2026-11-28T03:00=Cataloguing"], "cannot be pinned" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--move-cost", "1"], "--before PLAN.json" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--before", "p.json", "--policy", "practice-order"], "leave out --policy or --before" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--before", "p.json", "--move-cost", "-1"], "from 0 to 100; -1 is not" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--before", "p.json", "--ics", "p.json"], "given twice" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--ics", Exam], "given twice" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--bank", "b.csv", "--handout", "b.csv"], "given twice" },
        { ["next", Exam, Evidence], "--bank BANK.csv" },
        { ["next", Exam, Evidence, "--bank", ""], "file name is empty" },
        { ["next", Exam, Evidence, "--bank"], "--bank needs a value" },
        { ["next", Exam, "--bank", Bank], "--candidate NAME" },
        { ["next", Exam, Evidence, "--bank", Bank, "--newcomer"], "--candidate NAME" },
        { ["next", Exam, Evidence, "--bank", Bank, "--count", "0"], "--count is a whole number from 1 to 500; 0 is not" },
        { ["next", Exam, Evidence, "--bank", Bank, "--count", "some"], "some" },
        { ["next", Exam, Evidence, "--bank", Bank, "--exposure", "0"], "--exposure is a whole number from 1 to 100" },
        { ["next", Exam, Evidence, "--bank", Bank, "--among", "0"], "--among is a whole number" },
        { ["next", Exam, Evidence, "--bank", Bank, "--find", "score"], "'score' is neither" },
        { ["next", Exam, Evidence, "--bank", Bank, "--at-least", "9", "--at-most", "5"], "--at-least 9 is more than --at-most 5" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--ics", "x.out", "--handout", "./x.out"], "given twice" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--pdf", "x.out", "--handout", "./x.out"], "given twice" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--paper", "letter"], "--paper needs --pdf" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--pdf", "x.pdf", "--paper", "a5"], "'a5' is neither" },
        { ["plan", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--pdf"], "--pdf needs a value" },
        { ["words", Exam], "WORDS.csv" },
        { ["words", Exam, Words], "--exam-day" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-12-16"], "no day left" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-12-02", "--minutes", "0"], "from 1 to 240; 0 is not" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-12-02", "--out", Words], "given twice" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-12-02", "--answer", "frass"], "'frass' is not" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-12-02", "--answer", "frass=maybe"], "knew, partly or not" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-12-02", "--answer", "fras=knew"], "did you mean 'frass'?" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today", "2026-11-25", "--answer", "frass=knew"], "noted on 2026-11-26" },
        { ["words", Exam, Words, "--exam-day", "2026-12-16", "--today"], "--today needs a value" },
        { ["simulate", "--scenario", "as-asumed"], "did you mean 'as-assumed'?" },
        { ["simulate", "--policy", "luck"], "optimised, practice-order" },
        { ["simulate", "--candidates", "0"], "'0' is none" },
        { ["simulate", "--candidates", "many"], "'many' is none" },
        { ["simulate", "--seed", "1.5"], "'1.5' is none" },
        { ["simulate", "--seed"], "--seed needs a value" },
        { ["quiz-items", Exam], "ITEMS" },
        { ["quiz-items", Exam, Evidence, "--topic", "Catalogueing"], "Did you mean 'Cataloguing'?" },
        { ["equate", Exam], "EVIDENCE.csv" },
        { ["equate", Exam, Evidence], "--from TEST" },
        { ["equate", Exam, Evidence, "--from", "a", "--to"], "--to needs a value" },
        { ["equate", Exam, Evidence, "--from", "a", "--to", "A"], "both name 'a'" },
        { ["equate", Exam, "", "--from", "a"], "file name is empty" },
        { ["calibrate", Exam], "EVIDENCE.csv" },
        { ["calibrate", Exam, Evidence, "--split"], "--split needs a value" },
        { ["calibrate", Exam, Evidence, "--split", "many"], "many" },
        { ["calibrate", Exam, Evidence, "--split", "0"], "from 1 to 100000; '0' is not" },
        { ["calibrate", Exam, Evidence, "--split", "5", "--outcome", "exam"], "two ways to ask" },
        { ["calibrate", Exam, Evidence, "--seed", "5"], "--seed goes with --split only" },
        { ["calibrate", Exam, Evidence, "--attempt", "diagnostic"], "--attempt goes with --split only" },
        { ["calibrate", Exam, Evidence, "--exam-sat"], "--exam-sat goes with --split only" },
        { ["calibrate", Exam, Evidence, "--picture", Exam], "given twice" },
        { ["decide", "date", Exam, Evidence, "--free", Free], "--exam-day" },
        { ["decide", "date", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--weeks", "60"], "60" },
        { ["decide", "date", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--target", "100"], "100" },
        { ["decide", "date", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--retake-fee", "-5"], "-5" },
        { ["decide", "date", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--date", "2029-01-01"], "52 weeks" },
        { ["decide", "hours", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--hours", "99"], "99" },
        { ["decide", "test", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--items", "5"], "--topic" },
        { ["decide", "test", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--topic", "cataloging"], "did you mean 'Cataloguing'" },
        { ["decide", "test", Exam, Evidence, "--free", Free, "--exam-day", "2026-12-16", "--topic", "Cataloguing", "--items", "0"], "0" },
        { ["decide", "test", Exam, Evidence, "--free", Free, "--from", "2026-12-14T08:00", "--exam-day", "2026-12-16"], "does not hold a test" },
    };

    [Theory]
    [MemberData(nameof(WrongLines))]
    public async Task WrongUsageIsSaidInOneLine(string[] args, string said)
        => Assert.Contains(said, (await Ran.Program(args)).AssertWrongUsage(), StringComparison.Ordinal);

    [Theory]
    [InlineData("--help")]
    [InlineData("plan", "--help")]
    [InlineData("exam", "-h")]
    public async Task HelpShowsExamples(params string[] args)
    {
        Ran ran = await Ran.Program(args);

        Assert.Equal(0, ran.Status);
        Assert.Equal("", ran.Errors);
        Assert.Contains("EXAMPLES:", ran.Output, StringComparison.Ordinal);
        Assert.Contains("museum-registrar", ran.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task VersionIsANumber()
    {
        Ran ran = await Ran.Program("--version");

        Assert.Equal(0, ran.Status);
        Assert.Matches(@"^\d+\.\d+\.\d+\s*$", ran.Output);
    }
}
