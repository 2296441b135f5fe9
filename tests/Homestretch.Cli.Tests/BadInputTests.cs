using System.Text;

namespace Homestretch.Cli.Tests;

/// <summary>Problems beyond a single malformed file.</summary>
public sealed class BadInputTests : IDisposable
{
    private const string Exam = "examples/museum-registrar/exam.yaml";
    private const string Free = "examples/museum-registrar/mara-venn.free.yaml";
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("homestretch tests ");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task MissingFilesAreNamedAllAtOnce()
    {
        Ran ran = await Ran.Program("plan", "no-exam.yaml", "no-evidence.csv", "more.csv", "--log", "no-log.csv", "--free", "no-free.yaml", "--busy", "a.ics", "--busy", "b.ics", "--exam-day", "2026-12-16");

        ran.AssertBadInput();
        Assert.Equal(["no-exam.yaml:1", "no-evidence.csv:1", "more.csv:1", "no-log.csv:1", "no-free.yaml:1", "a.ics:1", "b.ics:1"], ran.ErrorLines.Select(l => l[..l.IndexOf(": ", StringComparison.Ordinal)]));
    }

    [Fact]
    public async Task ProblemsOfAllFilesComeAtOnce()
    {
        string cases = "tests/Homestretch.Files.Tests/cases/";
        string evidence = cases + "evidence/unknown-topic.csv";
        string free = Directory.GetFiles(Ran.InCheckout(cases, "free-time"), "zone-*.yaml").Select(f => Path.GetRelativePath(Ran.InCheckout(), f)).First();
        string busy = cases + "busy/bad-times.ics";
        Ran ran = await Ran.Program("plan", Exam, evidence, "--free", free, "--busy", busy, "--exam-day", "2026-12-16");

        ran.AssertBadInput();
        Assert.Equal([evidence, free, busy], ran.ErrorLines.Select(l => l[..l.IndexOf(':')]).Distinct());
    }

    [Fact]
    public async Task ADiagnosticNeedsAnswersToOneTestItemByItem()
    {
        string counts = Write("counts.csv", "candidate,attempt,kind,date,topic,correct,items\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,6,9\n");
        string two = Write("two.csv", "candidate,attempt,kind,date,topic,item,chosen,key\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,1,A,A\nPiet Hollow,d,diagnostic,2026-11-22,Title and ethics,1,A,A\n");
        string keys = Write("keys.csv", "candidate,attempt,kind,date,topic,item,chosen,key\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,1,A,A\nPiet Hollow,d,diagnostic,2026-11-22,Cataloguing,1,A,B\n");
        Ran without = await Ran.Program("diagnostic", Exam, counts);
        Ran misspelt = await Ran.Program("diagnostic", Exam, two, "--attempt", "dd");
        Ran mixed = await Ran.Program("diagnostic", Exam, two);
        Ran rekeyed = await Ran.Program("diagnostic", Exam, keys);

        without.AssertBadInput();
        Assert.Contains("no answers item by item", without.Errors, StringComparison.Ordinal);
        misspelt.AssertBadInput();
        Assert.Contains("There is no test 'dd'", misspelt.Errors, StringComparison.Ordinal);
        mixed.AssertBadInput();
        Assert.Contains("item '1' is on 'Cataloguing' for Una Marl and on 'Title and ethics' for Piet Hollow", mixed.Errors, StringComparison.Ordinal);
        rekeyed.AssertBadInput();
        Assert.Contains("the key of item '1' is 'A' for Una Marl and 'B' for Piet Hollow", rekeyed.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CalibrationNeedsPeopleWithOutcomesOrAnswersItemByItem()
    {
        string counts = Write("two.csv", "candidate,attempt,kind,date,topic,correct,items\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,6,9\nPiet Hollow,report,official,2026-11-22,Cataloguing,3,9\n");
        string picture = Path.Combine(_folder.FullName, "held.svg");
        Ran few = await Ran.Program("calibrate", Exam, counts, "--picture", picture);
        Ran unnamed = await Ran.Program("calibrate", Exam, counts, "--outcome", "reprt");
        Ran unsplit = await Ran.Program("calibrate", Exam, counts, "--split", "3");
        Ran alone = await Ran.Program("calibrate", Exam, "examples/museum-registrar/mara-venn.csv", "--split", "3");

        few.AssertBadInput();
        Assert.Contains("with fewer than 10 nothing can be said about forecasts", few.Errors, StringComparison.Ordinal);
        Assert.Contains("Una Marl, without a result that counts as the outcome; Piet Hollow, with nothing dated before the outcome", few.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists(picture));
        unnamed.AssertBadInput();
        Assert.Contains("There is no attempt 'reprt' in the evidence; did you mean 'report'?", unnamed.Errors, StringComparison.Ordinal);
        unsplit.AssertBadInput();
        Assert.Contains("no answers item by item", unsplit.Errors, StringComparison.Ordinal);
        alone.AssertBadInput();
        Assert.Contains("at least 10", alone.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ALogThatSpellsTheNameOtherwiseIsPointedOut()
    {
        string log = Write("log.csv", "candidate,date,topic,minutes,how\nMara Ven,2026-11-25,Cataloguing,50,learn\n");
        Ran ran = await Ran.Program("standing", Exam, "examples/museum-registrar/mara-venn.csv", "--log", log);

        ran.AssertBadInput();
        Assert.Contains(":2: column 'candidate': the log names 'Mara Ven' and not 'Mara Venn', as the evidence does", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task TheNextItemNeedsAKnownPersonOrANewcomerAndASoundBank()
    {
        const string Quick = "examples/museum-registrar/quick.csv";
        const string Bank = "examples/museum-registrar/bank.csv";
        string bad = Write("bad.csv", "topic,item,model,difficulty\nCatalogueing,C-01,rasch,0.3\nCataloguing,C-02,4PL,0.1\n");
        Ran misspelt = await Ran.Program("next", Exam, Quick, "--bank", Bank, "--candidate", "Lena Ostro");
        Ran known = await Ran.Program("next", Exam, Quick, "--bank", Bank, "--candidate", "lena ostrow", "--newcomer");
        Ran broken = await Ran.Program("next", Exam, "no-evidence.csv", "--bank", bad, "--candidate", "Lena Ostrow");
        Ran missing = await Ran.Program("next", "no-exam.yaml", "--bank", "no-bank.csv", "--candidate", "Lena Ostrow");

        misspelt.AssertBadInput();
        Assert.Contains("did you mean 'Lena Ostrow'?", misspelt.Errors, StringComparison.Ordinal);
        Assert.Contains("For somebody new add --newcomer.", misspelt.Errors, StringComparison.Ordinal);
        known.AssertBadInput();
        Assert.Contains("leave out --newcomer", known.Errors, StringComparison.Ordinal);
        broken.AssertBadInput();
        Assert.Equal(3, broken.ErrorLines.Length);
        missing.AssertBadInput();
        Assert.Equal(["no-exam.yaml:1", "no-bank.csv:1"], missing.ErrorLines.Select(l => l[..l.IndexOf(": ", StringComparison.Ordinal)]));
    }

    [Fact]
    public async Task SeveralCandidatesMustBeChosenFrom()
    {
        string evidence = Write("room.csv", "candidate,attempt,kind,date,topic,correct,items\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,6,9\nPiet Hollow,d,diagnostic,2026-11-22,Cataloguing,3,9\n");
        Ran unsaid = await Ran.Program("standing", Exam, evidence);
        Ran misspelt = await Ran.Program("standing", Exam, evidence, "--candidate", "Piet Holow");
        Ran chosen = await Ran.Program("standing", Exam, evidence, "--candidate", "piet hollow", "--json");

        unsaid.AssertBadInput();
        Assert.Contains("choose one with --candidate: Una Marl, Piet Hollow", unsaid.Errors, StringComparison.Ordinal);
        misspelt.AssertBadInput();
        Assert.Contains("did you mean 'Piet Hollow'?", misspelt.Errors, StringComparison.Ordinal);
        Assert.Equal(0, chosen.Status);
        Assert.Contains("\"candidate\": \"Piet Hollow\"", chosen.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task CalendarAndHandoutAreWrittenAndReplaced()
    {
        string calendar = Write("plan.ics", "old");
        string handout = Path.Combine(_folder.FullName, "plan.html");
        Ran ran = await Plan("--ics", calendar, "--handout", handout);

        Assert.Equal("", ran.Errors);
        Assert.Equal(0, ran.Status);
        string text = await File.ReadAllTextAsync(calendar, TestContext.Current.CancellationToken);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.Contains("BEGIN:VEVENT", text, StringComparison.Ordinal);
        Assert.Contains("Una Marl", await File.ReadAllTextAsync(handout, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(["evidence.csv", "plan.html", "plan.ics"], Left());
    }

    [Fact]
    public async Task NothingIsWrittenWhenOneFileCannotBe()
    {
        string handout = Path.Combine(_folder.FullName, "plan.html");
        Ran ran = await Plan("--handout", handout, "--ics", Path.Combine(_folder.FullName, "no-such-folder", "plan.ics"), "--json");

        ran.AssertBadInput();
        Assert.Contains("no such folder", ran.Errors, StringComparison.Ordinal);
        Assert.Equal(["evidence.csv"], Left());
    }

    [Fact]
    public async Task ThePdfIsWrittenOrItIsSaidWhatIsMissing()
    {
        string pdf = Path.Combine(_folder.FullName, "plan.pdf");
        await Plan();
        string[] line = ["plan", Exam, Path.Combine(_folder.FullName, "evidence.csv"), "--free", Free, "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--pdf", pdf];
        Ran ran = await Ran.ProgramWith(new() { ["HOMESTRETCH_PDF_SECONDS"] = "120" }, [.. line, "--paper", "letter"]);
        Assert.Equal("", ran.Errors);
        Assert.Equal(0, ran.Status);
        byte[] bytes = await File.ReadAllBytesAsync(pdf, TestContext.Current.CancellationToken);
        Assert.Equal("%PDF-", Encoding.ASCII.GetString(bytes, 0, 5));
        Assert.Contains("/MediaBox [0 0 612 792]", Encoding.Latin1.GetString(bytes), StringComparison.Ordinal);
        Assert.Equal(["evidence.csv", "plan.pdf"], Left());

        File.Delete(pdf);
        Ran without = await Ran.ProgramWith(
            new() { ["HOMESTRETCH_CHROMIUM"] = "/no/such/chromium" }, [.. line, "--handout", Path.Combine(_folder.FullName, "plan.html")]);
        without.AssertBadInput();
        Assert.Contains("plan.pdf:1: HOMESTRETCH_CHROMIUM names '/no/such/chromium'", without.Errors, StringComparison.Ordinal);
        Assert.Equal(["evidence.csv"], Left());
    }

    [Fact]
    public async Task NothingIsWrittenWhenInputIsBad()
    {
        Ran ran = await Plan("--handout", Path.Combine(_folder.FullName, "plan.html"), "--busy", "none.ics");

        ran.AssertBadInput();
        Assert.Equal(["evidence.csv"], Left());
    }

    [Fact]
    public async Task AFolderIsNoFileToWrite()
    {
        Ran ran = await Plan("--ics", _folder.FullName);

        ran.AssertBadInput();
        Assert.Equal(["evidence.csv"], Left());
    }

    [Fact]
    public async Task AnExamInThePastGivesAPlanWithoutBlocksThatSaysSo()
    {
        Ran ran = await Plan("--from", "2027-01-10");

        Assert.Equal(0, ran.Status);
        Assert.StartsWith("There is no study time to plan for Una Marl", ran.Output, StringComparison.Ordinal);
        Assert.Contains("2026-12-16 is in the past", ran.Output, StringComparison.Ordinal);
    }

    private Task<Ran> Plan(params string[] more)
    {
        string evidence = Write("evidence.csv", "candidate,attempt,kind,date,topic,correct,items\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,6,9\nUna Marl,d,diagnostic,2026-11-22,Title and ethics,3,6\n");
        string[] from = more.Contains("--from") ? [] : ["--from", "2026-11-25T08:00"];
        return Ran.Program(["plan", Exam, evidence, "--free", Free, "--exam-day", "2026-12-16", .. from, .. more]);
    }

    private string Write(string name, string text)
    {
        string path = Path.Combine(_folder.FullName, name);
        File.WriteAllText(path, text);
        return path;
    }

    private IEnumerable<string> Left() => _folder.EnumerateFileSystemInfos().Select(f => f.Name).Order(StringComparer.Ordinal);
}
