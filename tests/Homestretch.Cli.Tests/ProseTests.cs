namespace Homestretch.Cli.Tests;

/// <summary>What people read: the answer first, in a sentence; nothing said by colour alone.</summary>
public sealed class ProseTests
{
    private static readonly string[] _mara = [Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv")];

    [Fact]
    public async Task ExamSaysWhatIsAsked()
    {
        string text = await Text("exam", _mara[0]);

        Assert.Contains("130 scored items in 2 sections and 8 topics", text, StringComparison.Ordinal);
        Assert.Contains("pass mark 49 correct (65 %)", text, StringComparison.Ordinal);
        Assert.Contains("Retake: after 45 days, at most 3 attempts in twelve months.", text, StringComparison.Ordinal);
        Assert.Contains("current handbook overrules", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task StandingNamesEachLevelByShapeAndWord()
    {
        string text = await Text(["standing", .. _mara]);

        Assert.StartsWith("Of the 8 topics, Mara Venn is ", text, StringComparison.Ordinal);
        Assert.Matches("(▼ weak|◆ borderline|● strong)", text);
        Assert.DoesNotMatch("(?<!▼ )weak  |(?<!◆ )borderline  |(?<!● )strong  ", text);
    }

    [Fact]
    public async Task ForecastBeginsWithTheChanceAsAFigureAndAsAFrequency()
    {
        string text = await Text(["forecast", .. _mara]);

        Assert.Matches(@"^As things stand, Mara Venn's pass chance is (\d+|under 1|over 99) %: (about|fewer than|more than) \d+ of 100? people in this position pass\.", text);
        Assert.Contains("A forecast is not a promise", text, StringComparison.Ordinal);

        Assert.Matches(@"The +largest part of the uncertainty, \d+ %, is ", text);
        string[] sources = ["about ability", "than the exam", "the exam draws", "luck in answering"];
        int[] parts = [.. sources.Select(s => int.Parse(System.Text.RegularExpressions.Regex.Match(text, s + @" +(\d+) %").Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture))];
        Assert.Equal(100, parts.Sum());
    }

    [Fact]
    public async Task WordsBeginWithWhatIsToBePractisedAndSayWhy()
    {
        string text = await Text("words", _mara[0], Ran.Demo("mara-venn.words.csv"), "--today", "2026-12-02", "--exam-day", "2026-12-16", "--minutes", "3");

        Assert.Matches(@"^\d words? to practise today; 14 days left\. On exam day you can expect to know about \d+ of 14 words +if you practise until then, +\d+ with no further practice", text.Replace('\n', ' '));
        Assert.Matches(@"with +recall +today", text);
        Assert.Contains("droit de suite: No definition yet", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PlanBeginsWithWhatItChanges()
    {
        string text = await Text(["plan", .. _mara, "--free", Ran.Demo("mara-venn.free.yaml"), "--busy", Ran.Demo("mara-venn.busy.ics"), "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00"]);

        Assert.StartsWith("With this plan Mara Venn's pass chance goes from ", text, StringComparison.Ordinal);
        Assert.Contains("no study", text, StringComparison.Ordinal);
        Assert.Contains("practice order", text, StringComparison.Ordinal);
        Assert.Contains("optimised (this plan)", text, StringComparison.Ordinal);
        Assert.Contains("Wed 25 Nov", text, StringComparison.Ordinal);
        Assert.Contains("It would come in", text.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task AssumptionsBeginWithWhatThePlanHangsOn()
    {
        string text = await Text(["assumptions", .. _mara, "--free", Ran.Demo("mara-venn.free.yaml"), "--busy", Ran.Demo("mara-venn.busy.ics"), "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00"]);

        Assert.StartsWith("The plan hangs on ", text, StringComparison.Ordinal);
        Assert.Contains("The pass chance hangs most on how much an hour of study brings", text.ReplaceLineEndings(" "), StringComparison.Ordinal);
        Assert.Contains("SaturationHours", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("standing")]
    [InlineData("forecast")]
    public async Task WhatWasStudiedIsSaidWithWhatItBrought(string command)
    {
        string text = await Text([command, .. _mara, Ran.Demo("mara-venn.week-2.csv"), "--log", Ran.Demo("mara-venn.log.csv")]);

        Assert.Contains("- Study so far: 10 sessions, 7 h 55 min", text, StringComparison.Ordinal);
        Assert.Contains("- Going by the 2 tests taken after study, learning is", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task DiagnosticSaysFirstWhetherToTrustTheTest()
    {
        string text = await Text("diagnostic", _mara[0], Ran.Demo("cohort.csv"));

        Assert.StartsWith("autumn diagnostic, taken by 60 people, 52 items, ", text, StringComparison.Ordinal);
        Assert.Matches(@"The whole score (deserves trust|is fair for planning, not for a verdict) +\(alpha 0\.\d\d", text);
        Assert.Contains("Check the key of item 17 before anything else", text, StringComparison.Ordinal);
        Assert.Contains("C (key)", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CalibrationBeginsWithWhatBecameOfPeople()
    {
        string text = await Text("calibrate", _mara[0], Ran.Demo("cohort.csv"), Ran.Demo("outcomes.csv"));

        Assert.Matches(@"^Of the \d+ people given 50 % or more, \d+ passed; of the \d+ given less, \d+ passed\.", text);
        Assert.Contains("56 people: ", text, StringComparison.Ordinal);
        Assert.Matches("Hale Eastwick-Thorn, whose report gives bands that +allow both a pass and a fail", text);
        Assert.Contains("Brier score", text, StringComparison.Ordinal);
        Assert.Contains("90 to 100 %", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CalibrationOfASplitTestSaysHowItWasSplit()
    {
        string text = await Text("calibrate", _mara[0], Ran.Demo("cohort.csv"), "--split", "2", "--seed", "3", "--exam-sat");

        Assert.StartsWith("Of the people given about ", text, StringComparison.Ordinal);
        Assert.Contains("2 random splits of 52 items, 60 people, 60 forecasts", text, StringComparison.Ordinal);
        Assert.Contains("the plain share correct", text, StringComparison.Ordinal);
        Assert.Matches("how +hard +the +exam +half +is", text);
    }

    [Fact]
    public async Task NextSaysWhichItemAndWhatItWouldTell()
    {
        string[] lena = [_mara[0], Ran.Demo("quick.csv"), "--bank", Ran.Demo("bank.csv"), "--candidate", "Lena Ostrow"];
        string text = await Text(["next", .. lena]);
        string stop = await Text(["next", .. lena, "--at-most", "5"]);
        string set = await Text(["next", .. lena, "--count", "4", "--find", "levels"]);

        Assert.Matches(@"^Give Lena Ostrow item [A-Z]{2}-\d\d on [A-Z][a-z ]+ next\.", text);
        Assert.Matches(@"Pass chance as things stand: \d+ %, give or take \d+ points\.", text);
        Assert.Matches(@"it is expected to move by \d+ points", text);
        Assert.Contains("5 answered before", text, StringComparison.Ordinal);
        Assert.StartsWith("Lena Ostrow's quick diagnostic may stop here. It has had 5 items; 5 are the most that were agreed.", stop, StringComparison.Ordinal);
        Assert.StartsWith("Give Lena Ostrow these 4 items, in any order.", set, StringComparison.Ordinal);
        Assert.Contains("Levels to settle", set, StringComparison.Ordinal);
    }

    // Lines are broken to the width of the page; a sentence is a sentence wherever it breaks.
    private static async Task<string> Text(params string[] args)
    {
        Ran ran = await Ran.Program(args);
        Assert.Equal("", ran.Errors);
        Assert.Equal(0, ran.Status);
        ran.AssertNoTrace();
        Assert.All(ran.Output.Split('\n'), line => Assert.True(line.Length <= 80, line));
        return string.Join(' ', ran.Output.Split('\n').Select(l => l.TrimEnd()));
    }
}
