using System.Globalization;
using System.Text.Json;

using Json.Schema;

namespace Homestretch.Cli.Tests;

/// <summary>The documents for the demo: their schemas, and the fields that other programs rely on.</summary>
public sealed class DocumentTests
{
    private static readonly Dictionary<string, JsonSchema> _schemas = new[]
    {
        "exam-output",
        "standing",
        "forecast",
        "plan",
        "assumptions",
        "diagnostic",
        "next",
        "calibration",
        "simulation",
        "decide-date",
        "decide-hours",
        "decide-test",
        "items",
        "equate",
        "quiz-items",
        "words",
    }
        .ToDictionary(name => name, name => JsonSchema.FromText(File.ReadAllText(Ran.InCheckout("schemas", name + ".schema.json"))));

    private static readonly string[] _words = ["words", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.words.csv"), "--today", "2026-12-02", "--exam-day", "2026-12-16", "--minutes", "3"];

    /// <summary>The demo's three people and the days of their exams.</summary>
    public static TheoryData<string, string> People() => new()
    {
        { "mara-venn", "2026-12-16" },
        { "tobias-okell", "2026-12-12" },
        { "ines-harrow", "2026-11-27" },
    };

    [Fact]
    public async Task MaterialOfAPlan()
    {
        string[] args =
        [
            "plan", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--free", Ran.Demo("mara-venn.free.yaml"), "--from", "2026-11-25T08:00", "--exam-day", "2026-12-16",
            "--policy", "practice-order", "--resources", Ran.Demo("resources.csv"),
        ];
        JsonElement plan = await Document("plan", args);

        JsonElement[] blocks = [.. plan.GetProperty("blocks").EnumerateArray()];
        Assert.All(blocks, b => Assert.Equal(JsonValueKind.Array, b.GetProperty("material").ValueKind));
        Assert.Contains(blocks, b => b.GetProperty("material").EnumerateArray().Any(m => m.GetProperty("from").ValueKind == JsonValueKind.Number));
        Assert.Contains("Loans from A to Z", plan.GetProperty("resources").GetProperty("outdated").EnumerateArray().Select(o => o.GetString()));

        Ran prose = await Ran.Program(args);
        Assert.Equal(0, prose.Status);
        Assert.Contains("With: ", prose.Output, StringComparison.Ordinal);
        Assert.Contains("is older than the blueprint", prose.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);
    }

    [Fact]
    public async Task QuizItemsDocument()
    {
        string package = Path.Combine(Path.GetTempPath(), $"homestretch {Guid.NewGuid():N}.zip");
        try
        {
            System.IO.Compression.ZipFile.CreateFromDirectory(Ran.InCheckout("tests", "Homestretch.Files.Tests", "cases", "qti", "package"), package);
            JsonElement set = await Document("quiz-items", "quiz-items", Ran.Demo("exam.yaml"), Ran.Demo("quiz-items.csv"), package);

            JsonElement[] items = [.. set.GetProperty("items").EnumerateArray()];
            Assert.Equal(items.Length, set.GetProperty("topics").EnumerateArray().Sum(t => t.GetProperty("items").GetInt32()));
            Assert.All(items, i => Assert.Contains(i.GetProperty("options").EnumerateArray(), o => o.GetProperty("correct").GetBoolean()));
            Assert.Contains(items, i => i.GetProperty("id").GetString() == "loan-insurance-1" && i.GetProperty("topic").GetString() == "Loans and insurance");
            Assert.Contains(set.GetProperty("skipped").EnumerateArray(), s => s.GetProperty("item").GetString() == "order-1" && s.GetProperty("text").GetString()!.Contains("order-interaction", StringComparison.Ordinal));
            Assert.NotEmpty(set.GetProperty("notes").EnumerateArray());

            Ran prose = await Ran.Program("quiz-items", Ran.Demo("exam.yaml"), package);
            Assert.Equal(0, prose.Status);
            Assert.Contains("Left out", prose.Output, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(package);
        }
    }

    [Fact]
    public async Task ExamDocument()
    {
        JsonElement exam = await Document("exam-output", "exam", Ran.Demo("exam.yaml"));

        foreach (JsonElement section in exam.GetProperty("sections").EnumerateArray())
        {
            JsonElement[] topics = [.. section.GetProperty("topics").EnumerateArray()];
            Assert.All(topics, t => Assert.NotEqual("", t.GetProperty("name").GetString()));
            Assert.Equal(section.GetProperty("scoredItems").GetInt32(), topics.Sum(t => t.GetProperty("items").GetInt32()));
        }

        Assert.Equal(130, exam.GetProperty("scoredItems").GetInt32());

        // 65 % of 75 is 48.75 and 62 % of 55 is 34.1: the fewest whole counts that reach them are 49 and 35.
        Assert.Equal(49 + 35, exam.GetProperty("cut").GetInt32());
    }

    [Theory]
    [MemberData(nameof(People))]
    public async Task StandingDocument(string person, string examDay)
    {
        _ = examDay;
        JsonElement standing = await Document("standing", "standing", Ran.Demo("exam.yaml"), Ran.Demo(person + ".csv"));

        JsonElement[] topics = [.. standing.GetProperty("topics").EnumerateArray()];
        Assert.Equal(8, topics.Length);
        foreach (JsonElement topic in topics)
        {
            Assert.Contains(topic.GetProperty("section").GetString(), new[] { "Care of collections", "Documents and law" });
            Assert.InRange(topic.GetProperty("mean").GetDouble(), topic.GetProperty("low").GetDouble(), topic.GetProperty("high").GetDouble());
            JsonElement chances = topic.GetProperty("bandChances");
            Assert.Equal(1, new[] { "weak", "borderline", "strong" }.Sum(b => chances.GetProperty(b).GetDouble()), 1e-9);
            Assert.True(chances.TryGetProperty(topic.GetProperty("band").GetString()!, out _));
        }
    }

    [Theory]
    [MemberData(nameof(People))]
    public async Task ForecastDocument(string person, string examDay)
    {
        _ = examDay;
        JsonElement forecast = await Document("forecast", "forecast", Ran.Demo("exam.yaml"), Ran.Demo(person + ".csv"));

        double[] distribution = [.. forecast.GetProperty("distribution").EnumerateArray().Select(p => p.GetDouble())];
        Assert.Equal(131, distribution.Length);
        Assert.Equal(1, distribution.Sum(), 1e-9);
        double expected = forecast.GetProperty("expectedCorrect").GetDouble();
        Assert.Equal(distribution.Select((p, correct) => p * correct).Sum(), expected, 1e-6);
        Assert.Equal(84, forecast.GetProperty("cut").GetInt32());
        double[] sections = [.. forecast.GetProperty("sections").EnumerateArray().Select(s => s.GetProperty("passChance").GetDouble())];
        double pass = forecast.GetProperty("passChance").GetDouble();
        Assert.InRange(pass, 0, sections.Min());

        JsonElement uncertainty = forecast.GetProperty("uncertainty");
        double deviation = uncertainty.GetProperty("standardDeviation").GetDouble();

        // The split takes every item as reached; only Mara Venn's times say otherwise.
        double spread = Math.Sqrt(distribution.Select((p, correct) => p * (correct - expected) * (correct - expected)).Sum());
        Assert.Equal(spread, deviation, person == "mara-venn" ? 0.1 : 1e-3);
        Assert.Equal(0, uncertainty.GetProperty("learning").GetDouble());
        Assert.Equal(1, SourcesOf(uncertainty), 1e-9);
        Assert.Equal([85, 60], forecast.GetProperty("paceMarks").EnumerateArray().GroupBy(m => m.GetProperty("section").GetString()).Select(s => s.Max(m => m.GetProperty("item").GetInt32())));

        // Only Mara Venn's answers were timed.
        JsonElement pace = forecast.GetProperty("pace");
        if (person != "mara-venn")
        {
            Assert.Equal(JsonValueKind.Null, pace.ValueKind);
            return;
        }

        Assert.Equal(60, pace.GetProperty("items").GetInt32());
        Assert.Equal(pass, pace.GetProperty("passChanceInTime").GetDouble() - pace.GetProperty("cost").GetDouble(), 1e-9);
        Assert.InRange(pace.GetProperty("sections")[0].GetProperty("expectedReached").GetDouble(), 80, 85);
    }

    private static double SourcesOf(JsonElement uncertainty)
        => new[] { "ability", "learning", "form", "items", "chance" }.Sum(source => uncertainty.GetProperty(source).GetDouble());

    [Theory]
    [MemberData(nameof(People))]
    public async Task PlanDocument(string person, string examDay)
    {
        JsonElement plan = await Document(
            "plan", "plan", Ran.Demo("exam.yaml"), Ran.Demo(person + ".csv"), "--free", Ran.Demo(person + ".free.yaml"), "--busy", Ran.Demo(person + ".busy.ics"),
            "--exam-day", examDay, "--from", "2026-11-25T08:00");

        JsonElement policies = plan.GetProperty("policies");
        double Chance(string policy) => policies.GetProperty(policy).GetProperty("passChance").GetDouble();
        Assert.True(Chance("optimised") >= Chance("practice-order"));
        Assert.True(Chance("practice-order") >= Chance("none"));
        Assert.True(plan.GetProperty("uncertainty").GetProperty("learning").GetDouble() > 0);
        Assert.Equal(1, SourcesOf(plan.GetProperty("uncertainty")), 1e-9);

        JsonElement[] blocks = [.. plan.GetProperty("blocks").EnumerateArray()];
        JsonElement[] minutes = [.. plan.GetProperty("minutes").EnumerateArray()];
        Assert.NotEmpty(blocks);
        Assert.Equal(blocks.Length, blocks.Select(b => b.GetProperty("id").GetString()).Distinct().Count());
        DateTimeOffset last = DateTimeOffset.Parse(plan.GetProperty("from").GetString()!, CultureInfo.InvariantCulture);
        foreach (JsonElement block in blocks)
        {
            DateTimeOffset start = DateTimeOffset.Parse(block.GetProperty("start").GetString()!, CultureInfo.InvariantCulture);
            DateTimeOffset end = DateTimeOffset.Parse(block.GetProperty("end").GetString()!, CultureInfo.InvariantCulture);
            Assert.True(start >= last);
            Assert.Equal(block.GetProperty("minutes").GetInt32(), (end - start).TotalMinutes);
            Assert.NotEqual("", block.GetProperty("reason").GetString());
            Assert.StartsWith("Leaving it out costs ", block.GetProperty("change").GetString(), StringComparison.Ordinal);
            last = end;
        }

        Assert.True(last < DateTimeOffset.Parse(examDay + "T00:00+00:00", CultureInfo.InvariantCulture));
        Assert.Equal(minutes.Sum(m => m.GetProperty("minutes").GetInt32()), blocks.Sum(b => b.GetProperty("minutes").GetInt32()));
        string?[] named = [.. minutes.Concat(plan.GetProperty("leftAlone").EnumerateArray()).Select(t => t.GetProperty("topic").GetString())];
        Assert.All(minutes.Concat(plan.GetProperty("leftAlone").EnumerateArray()), t => Assert.EndsWith(".", t.GetProperty("change").GetString(), StringComparison.Ordinal));
        Assert.Equal(8, named.Length);
        Assert.Equal(8, named.Distinct().Count());
    }

    [Fact]
    public async Task AssumptionsDocument()
    {
        string[] args = [Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--free", Ran.Demo("mara-venn.free.yaml"), "--busy", Ran.Demo("mara-venn.busy.ics"), "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00"];
        JsonElement document = await Document("assumptions", ["assumptions", .. args]);
        JsonElement plan = await Document("plan", ["plan", .. args]);

        Assert.Equal(plan.GetProperty("policies").GetProperty("optimised").GetProperty("passChance").GetDouble(), document.GetProperty("passChance").GetDouble(), 1e-9);
        JsonElement[] assumptions = [.. document.GetProperty("assumptions").EnumerateArray()];

        // Her answers were timed, and she is slow.
        Assert.Contains(assumptions, a => a.GetProperty("name").GetString() == "Pace");
        Assert.All(assumptions, a => Assert.True(a.GetProperty("low").GetProperty("value").GetDouble() < a.GetProperty("high").GetProperty("value").GetDouble()));
        JsonElement rate = assumptions.Single(a => a.GetProperty("name").GetString() == "RatePerHour");
        Assert.True(rate.GetProperty("low").GetProperty("passChance").GetDouble() + 0.1 < rate.GetProperty("high").GetProperty("passChance").GetDouble());
    }

    [Fact]
    public async Task PracticeOrderGivesItsOwnBlocks()
    {
        string[] args = ["plan", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--free", Ran.Demo("mara-venn.free.yaml"), "--exam-day", "2026-12-16", "--from", "2026-11-25T08:00"];
        JsonElement practice = await Document("plan", [.. args, "--policy", "practice-order"]);
        JsonElement optimised = await Document("plan", args);

        Assert.Equal("practice-order", practice.GetProperty("policy").GetString());
        Assert.Equal("optimised", optimised.GetProperty("policy").GetString());
        Assert.NotEqual(practice.GetProperty("minutes").GetRawText(), optimised.GetProperty("minutes").GetRawText());

        // The figures of all policies stand in both.
        Assert.Equal(optimised.GetProperty("policies").GetRawText(), practice.GetProperty("policies").GetRawText());
    }

    [Theory]
    [InlineData("2026-11-25T08:00")]
    [InlineData("2026-11-25 08:00:00")]
    [InlineData("2026-11-25T09:00+01:00")]
    [InlineData("2026-11-25T08:00Z")]
    public async Task TheSameStartInAnyFormGivesTheSamePlan(string from)
    {
        JsonElement plan = await Document(
            "plan", "plan", Ran.Demo("exam.yaml"), Ran.Demo("ines-harrow.csv"), "--free", Ran.Demo("ines-harrow.free.yaml"), "--exam-day", "2026-11-27T08:00", "--from", from);

        Assert.Equal("2026-11-25T08:00:00+00:00", plan.GetProperty("from").GetString());
        Assert.Equal("2026-11-27", plan.GetProperty("examDay").GetString());
    }

    [Fact]
    public async Task OlderEvidenceLeavesMoreDoubt()
    {
        string[] args = ["standing", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv")];
        JsonElement soon = await Document("standing", args);
        JsonElement later = await Document("standing", [.. args, "--as-of", "2027-11-24"]);

        Assert.Equal("2026-11-24", soon.GetProperty("asOf").GetString());
        Assert.Equal("2027-11-24", later.GetProperty("asOf").GetString());
        foreach ((JsonElement now, JsonElement then) in soon.GetProperty("topics").EnumerateArray().Zip(later.GetProperty("topics").EnumerateArray()))
        {
            Assert.True(Width(then) > Width(now));
        }

        static double Width(JsonElement topic) => topic.GetProperty("high").GetDouble() - topic.GetProperty("low").GetDouble();
    }

    [Theory]
    [InlineData("standing")]
    [InlineData("forecast")]
    [InlineData("plan")]
    public async Task AStudyLogEntersEveryDocument(string command)
    {
        string[] args = [command, Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), Ran.Demo("mara-venn.week-2.csv")];
        string[] time = command == "plan" ? ["--free", Ran.Demo("mara-venn.free.yaml"), "--exam-day", "2026-12-16", "--from", "2026-12-02T08:00"] : ["--as-of", "2026-12-02"];
        JsonElement without = await Document(command, [.. args, .. time]);
        JsonElement with = await Document(command, [.. args, .. time, "--log", Ran.Demo("mara-venn.log.csv")]);

        Assert.Equal(JsonValueKind.Null, without.GetProperty("study").ValueKind);
        JsonElement study = with.GetProperty("study");
        Assert.Equal((10, 475), (study.GetProperty("sessions").GetInt32(), study.GetProperty("minutes").GetInt32()));
        Assert.Equal(475, study.GetProperty("topics").EnumerateArray().Sum(t => t.GetProperty("minutes").GetInt32()));
        double Chance(string outcome) => study.GetProperty(outcome).GetProperty("passChance").GetDouble();
        Assert.True(Chance("now") > Chance("without"));
        Assert.Equal(2, study.GetProperty("rate").GetProperty("tests").GetInt32());
        Assert.Equal(0.15, study.GetProperty("rate").GetProperty("assumed").GetDouble());
        double now = command switch
        {
            "forecast" => with.GetProperty("passChance").GetDouble(),
            "plan" => with.GetProperty("policies").GetProperty("none").GetProperty("passChance").GetDouble(),
            _ => Chance("now"),
        };
        Assert.InRange(now, 0, Chance("now") + 1e-9);
    }

    [Fact]
    public async Task APlanThatGoesOnSaysWhatItChangesAndCancelsWhatIsGone()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("homestretch-before-");
        try
        {
            string before = Path.Combine(folder.FullName, "first.json");
            string calendar = Path.Combine(folder.FullName, "next.ics");
            string[] time = ["--free", Ran.Demo("mara-venn.free.yaml"), "--busy", Ran.Demo("mara-venn.busy.ics"), "--exam-day", "2026-12-16"];
            string[] results = [Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv")];
            Ran first = await Ran.Program(["plan", .. results, .. time, "--from", "2026-11-25T08:00", "--json"]);
            await File.WriteAllTextAsync(before, first.Output, TestContext.Current.CancellationToken);
            int blocks = JsonDocument.Parse(first.Output).RootElement.GetProperty("blocks").GetArrayLength();

            JsonElement same = await Document("plan", ["plan", .. results, .. time, "--from", "2026-11-25T08:00", "--before", before]);
            Assert.Equal((blocks, 0, 0), Counts(same));
            Assert.Empty(same.GetProperty("revision").GetProperty("blocks").EnumerateArray());

            string[] later = [.. results, Ran.Demo("mara-venn.week-2.csv"), "--log", Ran.Demo("mara-venn.log.csv"), .. time, "--from", "2026-12-02T08:00", "--before", before];
            JsonElement next = await Document("plan", ["plan", .. later, "--ics", calendar]);
            (int kept, int moved, int earlier) = Counts(next);
            Assert.Equal(blocks, earlier + next.GetProperty("blocks").EnumerateArray().Count(b => JsonDocument.Parse(first.Output).RootElement.GetProperty("blocks").EnumerateArray().Any(o => Text(o, "id") == Text(b, "id"))));
            Assert.True(kept > moved);
            string[] fates = [.. next.GetProperty("earlier").EnumerateArray().Select(b => Text(b, "fate"))];
            Assert.Contains("done", fates);
            Assert.Contains("missed", fates);
            string written = await File.ReadAllTextAsync(calendar, TestContext.Current.CancellationToken);
            Assert.Equal(fates.Count(f => f != "done"), written.Split("STATUS:CANCELLED").Length - 1);

            // A topic that was taught goes on with practice, or with more teaching of what is left, but does not begin anew.
            Assert.DoesNotContain(next.GetProperty("blocks").EnumerateArray(), b => Text(b, "topic") == "Cataloguing" && Text(b, "purpose") == "learn");
            double Chance(string of) => next.GetProperty("revision").GetProperty(of).GetDouble();
            Assert.True(Chance("passChance") >= Chance("keptPassChance") + (Chance("moveCost") * moved) - 1e-9);

            string prose = (await Ran.Program(["plan", .. later])).Output;
            string example = (await File.ReadAllTextAsync(Ran.InCheckout("docs", "replan.md"), TestContext.Current.CancellationToken)).Split("```text\n")[1].Split("```")[0];
            Assert.Contains(Joined(example), Joined(prose), StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }

        static string Text(JsonElement of, string field) => of.GetProperty(field).GetString()!;

        // Figures aside, which a better search may change a little.
        static string Joined(string text) => System.Text.RegularExpressions.Regex.Replace(string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)), @"\d+", "#");

        static (int Kept, int Moved, int Earlier) Counts(JsonElement plan) =>
            (plan.GetProperty("revision").GetProperty("kept").GetInt32(), plan.GetProperty("revision").GetProperty("moved").GetInt32(), plan.GetProperty("earlier").GetArrayLength());
    }

    [Fact]
    public async Task WishesAreObeyedAndTheirCostIsSaid()
    {
        JsonElement plan = await Document(
            "plan", "plan", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--free", Ran.Demo("mara-venn.free.yaml"), "--busy", Ran.Demo("mara-venn.busy.ics"), "--exam-day", "2026-12-16",
            "--from", "2026-11-25T08:00", "--avoid", "Title and ethics", "--include", "Copyright and images", "--at-least", "Emergency plans=120", "--pin", "2026-11-28T10:00=Handling and packing");

        JsonElement[] blocks = [.. plan.GetProperty("blocks").EnumerateArray()];
        Assert.DoesNotContain(blocks, b => b.GetProperty("topic").GetString() == "Title and ethics");
        Assert.Contains(blocks, b => b.GetProperty("start").GetString() == "2026-11-28T10:00:00+00:00" && b.GetProperty("topic").GetString() == "Handling and packing");
        JsonElement wishes = plan.GetProperty("wishes");
        Assert.Equal(120, wishes.GetProperty("atLeast")[0].GetProperty("minutes").GetInt32());
        Assert.InRange(wishes.GetProperty("cost").GetDouble(), 0.005, 0.2);
        Assert.Equal(wishes.GetProperty("sentence").GetString(), plan.GetProperty("notes")[0].GetString());
    }

    [Fact]
    public async Task DiagnosticFindsTheFaultsPutIntoTheDemoCohort()
    {
        JsonElement diagnostic = await Document("diagnostic", "diagnostic", Ran.Demo("exam.yaml"), Ran.Demo("cohort.csv"));

        // examples/museum-registrar/cohort.py says what was put in.
        Assert.Equal("autumn diagnostic", diagnostic.GetProperty("attempt").GetString());
        Assert.Equal(60, diagnostic.GetProperty("candidates").GetInt32());
        JsonElement[] items = [.. diagnostic.GetProperty("items").EnumerateArray()];
        Assert.Equal(52, items.Length);
        Assert.Equal(["17"], items.Where(i => Has(i, "probably-miskeyed")).Select(i => i.GetProperty("item").GetString()));
        Assert.Contains("31", items.Where(i => Has(i, "too-easy")).Select(i => i.GetProperty("item").GetString()));
        Assert.All(items, i => Assert.Equal(
            i.GetProperty("given").GetInt32(),
            i.GetProperty("answered").GetInt32() + i.GetProperty("omitted").GetInt32() + i.GetProperty("notReached").GetInt32()));
        Assert.True(items.Sum(i => i.GetProperty("omitted").GetInt32()) > 0);
        Assert.True(items[51].GetProperty("notReached").GetInt32() > 0);
        Assert.Equal(0, items[0].GetProperty("notReached").GetInt32());

        double alpha = diagnostic.GetProperty("whole").GetProperty("alpha").GetProperty("value").GetDouble();
        Assert.InRange(alpha, 0.8, 0.95);
        Assert.Equal(alpha, diagnostic.GetProperty("whole").GetProperty("kr20").GetProperty("value").GetDouble(), 1e-9);
        Assert.Equal(2, diagnostic.GetProperty("sections").GetArrayLength());
        Assert.Equal(8, diagnostic.GetProperty("topics").GetArrayLength());
        Assert.Equal(52, diagnostic.GetProperty("coverage").EnumerateArray().Sum(c => c.GetProperty("expected").GetInt32()));

        JsonElement hurried = diagnostic.GetProperty("people")[23];
        Assert.True(hurried.GetProperty("rapid").GetInt32() >= 10);
        Assert.Contains(hurried.GetProperty("candidate").GetString()!, diagnostic.GetProperty("rapidGuessing").GetString(), StringComparison.Ordinal);

        static bool Has(JsonElement item, string concern) => item.GetProperty("concerns").EnumerateArray().Any(c => c.GetString() == concern);
    }

    [Fact]
    public async Task ItemsDocument()
    {
        JsonElement items = await Document("items", "items", Ran.Demo("exam.yaml"), Ran.Demo("cohort.csv"));

        JsonElement[] models = [.. items.GetProperty("models").EnumerateArray()];
        Assert.Equal(["rasch", "2pl", "3pl"], models.Select(m => m.GetProperty("model").GetString()));
        JsonElement best = models.Where(m => m.GetProperty("bic").ValueKind == JsonValueKind.Number).MinBy(m => m.GetProperty("bic").GetDouble());
        Assert.Equal(best.GetProperty("model").GetString(), items.GetProperty("model").GetString());
        Assert.Equal(["17", "31"], items.GetProperty("leftOut").EnumerateArray().Select(i => i.GetProperty("item").GetString()));
        Assert.Equal(50, items.GetProperty("items").GetArrayLength());
    }

    [Theory]
    [InlineData("standing")]
    [InlineData("forecast")]
    public async Task LearnedPriorsAndABankFitTheSchema(string command)
    {
        string bank = Ran.Demo("item-bank.csv");
        JsonElement document = await Document(command, command, Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--cohort", Ran.Demo("cohort.csv"), "--bank", bank);
        Assert.Equal(2, document.GetProperty("basis").GetProperty("sentences").GetArrayLength());
    }

    [Fact]
    public async Task DiagnosticOfOnePersonRefusesInWordsAndStillShowsCoverage()
    {
        JsonElement diagnostic = await Document("diagnostic", "diagnostic", Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"));

        Assert.Equal("One person's answers cannot show how far people differ.", diagnostic.GetProperty("whole").GetProperty("alpha").GetProperty("refusal").GetString());
        Assert.Equal(52, diagnostic.GetProperty("coverage").EnumerateArray().Sum(c => c.GetProperty("items").GetInt32()));
        Assert.Contains(diagnostic.GetProperty("coverage").EnumerateArray(), c => c.GetProperty("furtherItems").ValueKind == JsonValueKind.Null || c.GetProperty("furtherItems").GetInt32() > 0);
    }

    [Fact]
    public async Task SimulationDocument()
    {
        JsonElement simulation = await Document(
            "simulation", "simulate", "--scenario", "two-days", "--policy", "practice-order", "--policy", "nothing", "--candidates", "20", "--seed", "-3");

        Assert.Equal(-3, simulation.GetProperty("seed").GetInt64());
        JsonElement scenario = Assert.Single(simulation.GetProperty("scenarios").EnumerateArray());
        Assert.Equal(20, scenario.GetProperty("candidates").GetInt32());
        JsonElement[] policies = [.. scenario.GetProperty("policies").EnumerateArray()];
        Assert.Equal(["practice-order", "nothing"], policies.Select(p => p.GetProperty("policy").GetString()));
        Assert.All(policies, p => Assert.Equal(p.GetProperty("passed").GetInt32() / 20.0, p.GetProperty("passRate").GetDouble()));
        Assert.Equal(0, policies[1].GetProperty("meanHours").GetDouble());
        Assert.Equal(
            policies[0].GetProperty("passRate").GetDouble() - policies[1].GetProperty("passRate").GetDouble(),
            Assert.Single(scenario.GetProperty("differences").EnumerateArray()).GetProperty("difference").GetDouble(),
            1e-9);
    }

    [Fact]
    public async Task CalibrationComparesTheDemoCohortWithItsOutcomes()
    {
        string picture = Path.Combine(Path.GetTempPath(), $"held {Guid.NewGuid():N}.svg");
        JsonElement document = await Document("calibration", "calibrate", Ran.Demo("exam.yaml"), Ran.Demo("cohort.csv"), Ran.Demo("outcomes.csv"), "--picture", picture);
        try
        {
            Assert.StartsWith("<?xml", await File.ReadAllTextAsync(picture, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(picture);
        }

        // examples/museum-registrar/cohort.py says who did not sit the exam and whose results came as bands.
        JsonElement[] cases = [.. document.GetProperty("cases").EnumerateArray()];
        Assert.Equal("outcomes", document.GetProperty("way").GetString());
        Assert.Equal(56, cases.Length);
        Assert.Equal(["no-outcome", "no-outcome", "no-outcome", "ambiguous"], document.GetProperty("leftOut").EnumerateArray().Select(p => p.GetProperty("reason").GetString()).OrderDescending());
        Assert.Equal(cases.Count(c => c.GetProperty("passed").GetBoolean()), document.GetProperty("passes").GetProperty("passed").GetInt32());
        Assert.Equal(cases.Average(c => Math.Pow(c.GetProperty("passChance").GetDouble() - (c.GetProperty("passed").GetBoolean() ? 1 : 0), 2)), document.GetProperty("brier").GetProperty("forecast").GetDouble(), 1e-9);
        Assert.True(document.GetProperty("brier").GetProperty("forecast").GetDouble() < document.GetProperty("brier").GetProperty("baseRate").GetDouble());
        Assert.Equal(JsonValueKind.Null, document.GetProperty("split").ValueKind);
    }

    [Fact]
    public async Task CalibrationOfASplitIsTheSameForTheSameSeed()
    {
        string[] line = ["calibrate", Ran.Demo("exam.yaml"), Ran.Demo("cohort.csv"), "--split", "2"];
        JsonElement first = await Document("calibration", line);
        JsonElement second = await Document("calibration", [.. line, "--seed", "1", "--attempt", "autumn diagnostic"]);
        JsonElement other = await Document("calibration", [.. line, "--seed", "2"]);

        Assert.Equal(first.GetRawText(), second.GetRawText());
        Assert.NotEqual(first.GetRawText(), other.GetRawText());
        Assert.True(first.GetProperty("split").GetProperty("priorsLearned").GetBoolean());
        Assert.Equal(60, first.GetProperty("forecasts").GetInt32());
    }

    private static readonly string[] _mara =
    [
        Ran.Demo("exam.yaml"), Ran.Demo("mara-venn.csv"), "--free", Ran.Demo("mara-venn.free.yaml"), "--busy", Ran.Demo("mara-venn.busy.ics"),
        "--from", "2026-11-25T08:00", "--exam-day", "2026-12-16",
    ];

    [Fact]
    public async Task DecideDateComparesTheBookedDateWithLaterOnes()
    {
        JsonElement date = await Document("decide-date", ["decide", "date", .. _mara, "--weeks", "2", "--retake-fee", "180", "--postpone-fee", "40.50", "--target", "50"]);

        JsonElement[] dates = [.. date.GetProperty("dates").EnumerateArray()];
        Assert.Equal(["2026-12-16", "2026-12-23", "2026-12-30"], dates.Select(d => d.GetProperty("date").GetString()));
        double[] pass = [.. dates.Select(d => d.GetProperty("passChance").GetDouble())];
        Assert.Equal(pass.Order(), pass);
        Assert.Equal(40.5 + (180 * (1 - pass[1])), dates[1].GetProperty("expectedFees").GetDouble(), 0.01);
        Assert.Equal(dates.First(d => d.GetProperty("passChance").GetDouble() >= 0.5).GetProperty("date").GetString(), date.GetProperty("best").GetString());
        Assert.Equal(JsonValueKind.Null, date.GetProperty("earliestRetake").ValueKind);
    }

    [Fact]
    public async Task DecideDateKnowsARetakersEarliestDate()
    {
        JsonElement date = await Document(
            "decide-date", "decide", "date", Ran.Demo("exam.yaml"), Ran.Demo("tobias-okell.csv"), "--free", Ran.Demo("tobias-okell.free.yaml"),
            "--from", "2026-11-25T08:00", "--exam-day", "2026-12-12", "--date", "2026-11-30");

        // The official attempt was on 2026-10-20, and the exam file says 45 days.
        Assert.Equal("2026-12-04", date.GetProperty("earliestRetake").GetString());
        Assert.Contains("2026-12-04", date.GetProperty("dates")[0].GetProperty("barred").GetString(), StringComparison.Ordinal);
        Assert.Equal(JsonValueKind.Null, date.GetProperty("dates")[1].GetProperty("barred").ValueKind);
    }

    [Fact]
    public async Task DecideHoursComparesWithTheHoursThereAre()
    {
        JsonElement hours = await Document("decide-hours", ["decide", "hours", .. _mara, "--hours", "4", "--hours", "18.5"]);

        JsonElement[] options = [.. hours.GetProperty("hours").EnumerateArray()];
        Assert.Equal([240, 825, 1110], options.Select(o => o.GetProperty("weeklyMinutes").GetInt32()));
        Assert.Equal([false, true, false], options.Select(o => o.GetProperty("now").GetBoolean()));
        Assert.True(options[2].GetProperty("passChance").GetDouble() > options[0].GetProperty("passChance").GetDouble() + 0.05);
    }

    [Fact]
    public async Task DecideTestWeighsAQuizAgainstItsMinutes()
    {
        JsonElement test = await Document("decide-test", ["decide", "test", .. _mara, "--topic", "cataloguing", "--items", "12", "--minutes", "30"]);

        Assert.Equal(12, test.GetProperty("items").GetInt32());
        Assert.Equal(30, test.GetProperty("minutes").GetInt32());
        Assert.Equal(
            test.GetProperty("without").GetDouble() - test.GetProperty("minutesCost").GetDouble() + test.GetProperty("information").GetDouble(),
            test.GetProperty("withTest").GetDouble(),
            1e-9);
        Assert.InRange(test.GetProperty("information").GetDouble(), 0, 0.1);
        Assert.InRange(test.GetProperty("doubt").GetDouble(), 0.001, 0.3);
    }

    [Fact]
    public async Task NextItemOfTheDemo()
    {
        string[] args = ["next", Ran.Demo("exam.yaml"), Ran.Demo("quick.csv"), "--bank", Ran.Demo("bank.csv"), "--candidate", "Lena Ostrow"];
        JsonElement next = await Document("next", args);

        Assert.Equal("pass", next.GetProperty("target").GetString());
        Assert.Equal("2026-11-24", next.GetProperty("asOf").GetString());
        Assert.Equal(5, next.GetProperty("given").GetInt32());
        Assert.Equal(JsonValueKind.Null, next.GetProperty("stop").ValueKind);
        JsonElement item = Assert.Single(next.GetProperty("items").EnumerateArray());
        string[] answered = [.. QuickAnswers().Where(a => a.Candidate == "Lena Ostrow").Select(a => a.Item)];
        Assert.DoesNotContain(item.GetProperty("item").GetString(), answered);
        double right = item.GetProperty("chanceRight").GetDouble();
        double mean = (right * item.GetProperty("passIfRight").GetDouble()) + ((1 - right) * item.GetProperty("passIfWrong").GetDouble());
        Assert.Equal(next.GetProperty("pass").GetProperty("mean").GetDouble(), mean, 1e-9);
        Assert.Equal(next.GetProperty("doubt").GetDouble() - item.GetProperty("information").GetDouble(), next.GetProperty("doubtAfter").GetDouble(), 1e-9);
        JsonElement bank = next.GetProperty("bank");
        Assert.Equal(96, bank.GetProperty("items").GetInt32());
        Assert.Equal(5, bank.GetProperty("answered").GetInt32());

        // The same question, the same answer.
        Assert.Equal(next.GetRawText(), (await Document("next", args)).GetRawText());
    }

    [Fact]
    public async Task ASetForSomebodyOfWhomNothingIsKnown()
    {
        string[] args = ["next", Ran.Demo("exam.yaml"), "--bank", Ran.Demo("bank.csv"), "--candidate", "Una Marl", "--count", "6"];
        JsonElement next = await Document("next", args);
        JsonElement neighbour = await Document("next", [.. args[..5], "Piet Hollow", .. args[6..]]);
        JsonElement among = await Document("next", ["next", Ran.Demo("exam.yaml"), Ran.Demo("quick.csv"), .. args[2..], "--newcomer", "--exposure", "10"]);

        Assert.Equal(0, next.GetProperty("evidenceItems").GetInt32());
        Assert.Equal(6, next.GetProperty("items").EnumerateArray().Select(i => i.GetProperty("item").GetString()).Distinct().Count());
        Assert.NotEqual(next.GetProperty("items").GetRawText(), neighbour.GetProperty("items").GetRawText());
        Assert.Equal(next.GetProperty("pass").GetRawText(), among.GetProperty("pass").GetRawText());

        // Of seven people one is 14 %: whatever anyone has had is held back.
        int familiar = among.GetProperty("bank").GetProperty("tooFamiliar").GetInt32();
        Assert.Equal(QuickAnswers().Select(a => a.Item).Distinct().Count(), familiar);
    }

    [Fact]
    public async Task ADiagnosticThatMayStopSaysWhy()
    {
        string[] args = ["next", Ran.Demo("exam.yaml"), Ran.Demo("quick.csv"), "--bank", Ran.Demo("bank.csv"), "--candidate", "Emil Cindermoor", "--at-most", "10"];
        JsonElement next = await Document("next", args);
        JsonElement levels = await Document("next", [.. args, "--find", "levels"]);

        Assert.Equal("long-enough", next.GetProperty("stop").GetProperty("reason").GetString());
        Assert.Contains("10 items", next.GetProperty("stop").GetProperty("sentence").GetString(), StringComparison.Ordinal);
        Assert.Empty(next.GetProperty("items").EnumerateArray());
        Assert.Empty(next.GetProperty("levels").EnumerateArray());
        Assert.NotEmpty(levels.GetProperty("levels").EnumerateArray());
    }

    [Fact]
    public async Task EquatedTestsAndWhatToWriteOfThem()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("homestretch equate ");
        try
        {
            string room = Path.Combine(folder.FullName, "room.csv");
            await File.WriteAllTextAsync(room, Room(36), TestContext.Current.CancellationToken);
            string[] args = ["equate", Ran.Demo("exam.yaml"), room, "--from", "practice a", "--to", "Exam"];
            JsonElement equated = await Document("equate", args);

            Assert.Equal(36, equated.GetProperty("people").GetInt32());
            Assert.StartsWith("60 of 96 on Practice A is worth about 52 of 96 on exam", equated.GetProperty("sentence").GetString(), StringComparison.Ordinal);
            JsonElement[] scores = [.. equated.GetProperty("scores").EnumerateArray()];
            Assert.Equal(97, scores.Length);
            Assert.Equal(scores[60].GetProperty("linear").GetProperty("value").GetDouble(), scores[60].GetProperty("equipercentile").GetProperty("value").GetDouble(), 1.0);
            Assert.Empty(equated.GetProperty("notes").EnumerateArray());

            // The line it gives is one that evidence files take, and it is said wherever figures rest on it.
            string write = equated.GetProperty("againstExam").GetProperty("write").GetString()!;
            Assert.Matches(@"^\d+(\.\d)? points easier ± \d+(\.\d)?$", write);
            string person = Path.Combine(folder.FullName, "person.csv");
            await File.WriteAllTextAsync(person, $"candidate,attempt,kind,date,topic,correct,items,against exam\nUna Marl,Practice A,practice exam,2026-11-22,Cataloguing,6,12,{write}\n", TestContext.Current.CancellationToken);
            JsonElement stated = await Document("standing", "standing", Ran.Demo("exam.yaml"), person);
            JsonElement learned = await Document("standing", "standing", Ran.Demo("exam.yaml"), room, "--candidate", "Person 1");
            Assert.Contains(stated.GetProperty("basis").GetProperty("sentences").EnumerateArray(), s => s.GetString()!.EndsWith("the evidence states it.", StringComparison.Ordinal));
            Assert.Contains(learned.GetProperty("basis").GetProperty("sentences").EnumerateArray(), s => s.GetString()!.EndsWith("learned from 36 people who took both.", StringComparison.Ordinal));

            JsonElement back = await Document("equate", "equate", Ran.Demo("exam.yaml"), room, "--from", "exam", "--to", "Practice A");
            Assert.Equal(JsonValueKind.Null, back.GetProperty("againstExam").ValueKind);
            Ran prose = await Ran.Program(args[..5]);
            Assert.Equal(0, prose.Status);
            Assert.StartsWith("60 of 96 on Practice A is worth about 52 of 96 on the official exam", prose.Output, StringComparison.Ordinal);
            Assert.Contains("against exam' of the evidence: " + write, prose.Output.ReplaceLineEndings(" "), StringComparison.Ordinal);

            await File.WriteAllTextAsync(room, Room(29), TestContext.Current.CancellationToken);
            Ran few = await Ran.Program(args);
            few.AssertBadInput();
            Assert.Contains("Only 29 people took both tests", few.Errors, StringComparison.Ordinal);
            Ran misspelt = await Ran.Program([.. args[..4], "Practise A"]);
            misspelt.AssertBadInput();
            Assert.Contains("did you mean 'Practice A'?", misspelt.Errors, StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // Twelve items of each topic on both tests; on the exam one item fewer of every topic is right.
    private static string Room(int people)
    {
        string[] topics = File.ReadAllLines(Ran.InCheckout("examples", "museum-registrar", "exam.yaml"))
            .Where(l => l.StartsWith("      - name: ", StringComparison.Ordinal)).Select(l => l["      - name: ".Length..]).ToArray();
        System.Text.StringBuilder rows = new("candidate,attempt,kind,date,topic,correct,items\n");
        for (int i = 0; i < people; i++)
        {
            for (int t = 0; t < topics.Length; t++)
            {
                int right = 5 + ((i + t) % 3) + (i % 4);
                rows.Append(CultureInfo.InvariantCulture, $"Person {i + 1},Practice A,practice exam,2026-11-20,{topics[t]},{right},12\n");
                rows.Append(CultureInfo.InvariantCulture, $"Person {i + 1},exam,official,2026-11-23,{topics[t]},{right - 1},12\n");
            }
        }

        return rows.ToString();
    }

    [Fact]
    public async Task WordsDocumentChoosesWordsForToday()
    {
        JsonElement document = await Document("words", _words);

        string?[] practise = [.. document.GetProperty("practise").EnumerateArray().Select(t => t.GetString())];
        JsonElement[] words = [.. document.GetProperty("words").EnumerateArray()];
        Assert.Equal(9, document.GetProperty("recallsPerDay").GetInt32());
        Assert.Equal(14, words.Length);
        Assert.InRange(practise.Length, 1, 9);
        Assert.Equal(practise.Order(StringComparer.Ordinal), words.Where(w => w.GetProperty("state").GetString() == "today").Select(w => w.GetProperty("term").GetString()).Order(StringComparer.Ordinal));
        Assert.Equal("lacks-definition", words.Single(w => w.GetProperty("term").GetString() == "droit de suite").GetProperty("state").GetString());
        JsonElement expected = document.GetProperty("expected");
        Assert.Equal(words.Sum(w => w.GetProperty("chancePlanned").GetDouble()), expected.GetProperty("planned").GetDouble(), 1e-9);
        Assert.True(expected.GetProperty("alone").GetDouble() < expected.GetProperty("planned").GetDouble());
        Assert.InRange(expected.GetProperty("afterToday").GetDouble(), expected.GetProperty("alone").GetDouble(), expected.GetProperty("planned").GetDouble());
    }

    [Fact]
    public async Task AnswersOfTodayAreKeptAndCardsArePrinted()
    {
        DirectoryInfo folder = Directory.CreateTempSubdirectory("homestretch-words-");
        try
        {
            string next = Path.Combine(folder.FullName, "next.csv");
            string cards = Path.Combine(folder.FullName, "cards.html");
            JsonElement first = await Document("words", _words);
            string term = first.GetProperty("practise")[0].GetString()!;
            JsonElement answered = await Document("words", [.. _words, "--answer", term + "=partly", "--out", next, "--cards", cards]);
            JsonElement again = await Document("words", [.. _words[..2], next, .. _words[3..]]);

            Assert.Equal(1, answered.GetProperty("doneToday").GetInt32());
            Assert.DoesNotContain(term, answered.GetProperty("practise").EnumerateArray().Select(t => t.GetString()));
            Assert.Equal(answered.GetRawText(), again.GetRawText());
            Assert.Contains(term, await File.ReadAllTextAsync(cards, TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    private static IEnumerable<(string Candidate, string Item)> QuickAnswers()
        => File.ReadLines(Ran.InCheckout("examples", "museum-registrar", "quick.csv")).Skip(1).Select(line => line.Split(',')).Select(f => (f[0], f[4]));

    private static async Task<JsonElement> Document(string schema, params string[] args)
    {
        Ran ran = await Ran.Program([.. args, "--json"]);
        Assert.Equal("", ran.Errors);
        Assert.Equal(0, ran.Status);
        using JsonDocument document = JsonDocument.Parse(ran.Output);
        EvaluationResults results = _schemas[schema].Evaluate(document.RootElement, new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(results.IsValid, string.Join('\n', (results.Details ?? []).Where(d => d.Errors is not null).Select(d => $"{d.InstanceLocation}: {string.Join("; ", d.Errors!.Values)}")));
        return document.RootElement.Clone();
    }
}
