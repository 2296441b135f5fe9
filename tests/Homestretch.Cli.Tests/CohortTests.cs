using System.Text.Json;

namespace Homestretch.Cli.Tests;

/// <summary>What a cohort and an item bank change, and that it is said: from the room's answers to a bank and back into one person's standing.</summary>
public sealed class CohortTests : IDisposable
{
    private static readonly string _exam = Ran.Demo("exam.yaml");
    private static readonly string _cohort = Ran.Demo("cohort.csv");
    private static readonly string _mara = Ran.Demo("mara-venn.csv");
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("homestretch cohort ");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task ARoomsFileTeachesThePriorsOfEveryoneInIt()
    {
        JsonElement basis = (await Json("standing", _exam, _cohort, "--candidate", "Brisa Amberlow")).GetProperty("basis");

        Assert.Equal("learned", basis.GetProperty("priors").GetString());
        Assert.Equal("autumn diagnostic", basis.GetProperty("test").GetString());
        Assert.Equal(60, basis.GetProperty("people").GetInt32());
        Assert.Equal(JsonValueKind.Null, basis.GetProperty("bank").ValueKind);
        JsonElement[] learned = [.. basis.GetProperty("assumptions").EnumerateArray().Where(a => a.GetProperty("learned").GetBoolean())];
        Assert.Equal(["MeanAbility", "AbilitySd", "TopicSd", "ItemSpread", "TopicFormSd", "FormSd", "OfficialFormSd"], learned.Select(a => a.GetProperty("name").GetString()));
        Assert.All(learned[..3], a => Assert.True(a.GetProperty("standardError").GetDouble() > 0));

        // The room was drawn with a spread of 1 between people; cohort.py.
        Assert.InRange(learned[1].GetProperty("value").GetDouble(), 0.6, 1.4);
        Assert.Equal(8, basis.GetProperty("topics").GetArrayLength());
    }

    [Fact]
    public async Task ACohortFileTeachesThePriorsOfSomebodyElse()
    {
        JsonElement alone = await Json("forecast", _exam, _mara);
        JsonElement withRoom = await Json("forecast", _exam, _mara, "--cohort", _cohort);

        Assert.Equal("defaults", alone.GetProperty("basis").GetProperty("priors").GetString());
        Assert.Equal("learned", withRoom.GetProperty("basis").GetProperty("priors").GetString());
        Assert.NotEqual(alone.GetProperty("passChance").GetDouble(), withRoom.GetProperty("passChance").GetDouble());
        string text = await Prose("forecast", _exam, _mara, "--cohort", _cohort);

        // The room and Mara herself.
        Assert.Contains("Learned from the 61 people who took 'autumn diagnostic', in place of the usual assumptions", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ACohortTooSmallSaysHowManyAreMissing()
    {
        string[] lines = await File.ReadAllLinesAsync(Ran.InCheckout(_cohort), TestContext.Current.CancellationToken);
        string few = Write("few.csv", string.Join('\n', lines[..(1 + (12 * 52))]) + "\n");
        string text = await Prose("standing", _exam, _mara, "--cohort", few);

        // Twelve and Mara herself.
        Assert.Contains("The usual assumptions are in use: 13 people took 'autumn diagnostic', and learning from a cohort takes 30 on one test, so 17 are missing.", text, StringComparison.Ordinal);
        Ran refused = await Ran.Program("items", _exam, few);
        refused.AssertBadInput();
        Assert.EndsWith(":1: Calibrating items takes answers of 30 people to one test; 12 took this one, so 18 are missing.\n", refused.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task ItemsAreCalibratedKeptAndCounted()
    {
        string bank = Path.Combine(_folder.FullName, "bank.csv");
        string text = await Prose("items", _exam, _cohort, "--out", bank);

        Assert.StartsWith("autumn diagnostic, taken by 60 people: 50 of 52 items calibrated.", text, StringComparison.Ordinal);
        Assert.Contains("Item 17 is left out. Its key is probably wrong", text, StringComparison.Ordinal);
        Assert.Contains("Item 31 is left out. Everybody who answered it got it right", text, StringComparison.Ordinal);
        Assert.Contains("BIC", text, StringComparison.Ordinal);
        Assert.Equal(51, (await File.ReadAllLinesAsync(bank, TestContext.Current.CancellationToken)).Length);

        // Mara answered all 52 items, and 8 of a quiz whose numbers mean other items.
        JsonElement used = (await Json("standing", _exam, _mara, "--bank", bank)).GetProperty("basis").GetProperty("bank");
        Assert.Equal([50, 50, 60], new[] { "items", "calibratedAnswers", "answers" }.Select(n => used.GetProperty(n).GetInt32()));
        Assert.Contains("50 of 60 answers counted with their own calibrated items", await Prose("standing", _exam, _mara, "--bank", bank), StringComparison.Ordinal);

        Assert.Equal(0, (await Ran.Program("items", _exam, _cohort, "--out", bank, "--any-test")).Status);
        JsonElement anywhere = (await Json("standing", _exam, _mara, "--bank", bank)).GetProperty("basis").GetProperty("bank");
        Assert.InRange(anywhere.GetProperty("calibratedAnswers").GetInt32(), 51, 58);
    }

    [Theory]
    [InlineData("rasch")]
    [InlineData("2pl")]
    [InlineData("3pl")]
    public async Task AModelCanBeAskedFor(string model)
    {
        JsonElement items = await Json("items", _exam, _cohort, "--model", model);

        Assert.Equal(model, items.GetProperty("model").GetString());
        Assert.Equal(1, items.GetProperty("models").GetArrayLength());
        Assert.All(items.GetProperty("items").EnumerateArray(), i => Assert.Equal(model == "rasch", i.GetProperty("discrimination").GetDouble() == 1));
        Assert.All(items.GetProperty("items").EnumerateArray(), i => Assert.Equal(model == "3pl", i.GetProperty("guessing").GetDouble() > 0));
    }

    [Fact]
    public async Task ThePlanSaysWhatItRestsOnInProseAndOnTheHandout()
    {
        string handout = Path.Combine(_folder.FullName, "plan.html");
        string[] args = ["plan", _exam, _mara, "--cohort", _cohort, "--free", Ran.Demo("mara-venn.free.yaml"), "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00", "--handout", handout];

        Assert.Contains("Learned from the 61 people who took 'autumn diagnostic'", await Prose(args), StringComparison.Ordinal);
        Assert.Contains("Learned from the 61 people who took 'autumn diagnostic'", await File.ReadAllTextAsync(handout, TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task ProblemsInCohortAndBankAreNamedByLineTogether()
    {
        string bank = Write("bank.csv", "topic,item,model,difficulty\nCataloging,1,rasch,0\nCataloguing,2,rasch,steep\n");
        string others = Write("others.csv", "candidate,attempt,kind,date,topic,correct,items\nUna Marl,d,diagnostic,2026-11-22,Cataloguing,9,6\n");
        Ran ran = await Ran.Program("forecast", _exam, _mara, "--cohort", others, "--bank", bank);

        ran.AssertBadInput();
        Assert.Equal([others + ":2", bank + ":2", bank + ":3"], ran.ErrorLines.Select(l => l[..l.IndexOf(": ", StringComparison.Ordinal)]));
    }

    private static async Task<JsonElement> Json(params string[] args)
    {
        Ran ran = await Ran.Program([.. args, "--json"]);
        Assert.Equal("", ran.Errors);
        Assert.Equal(0, ran.Status);
        using JsonDocument document = JsonDocument.Parse(ran.Output);
        return document.RootElement.Clone();
    }

    private static async Task<string> Prose(params string[] args)
    {
        Ran ran = await Ran.Program(args);
        Assert.Equal("", ran.Errors);
        Assert.Equal(0, ran.Status);
        Assert.All(ran.Output.Split('\n'), line => Assert.True(line.Length <= 80, line));
        return string.Join(' ', ran.Output.Split('\n').Select(l => l.TrimEnd()));
    }

    private string Write(string name, string text)
    {
        string path = Path.Combine(_folder.FullName, name);
        File.WriteAllText(path, text);
        return path;
    }
}
