using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;

using Json.Schema;

using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;

namespace Homestretch.Web.Tests;

/// <summary>The interface for other programs, over HTTP: every operation, every answer checked with the interface's own description.</summary>
public sealed class ApiTests(SharedServer server)
{
    private const string Root = "/api/v1";
    private const string Json = "application/json";
    private const string Csv = "text/csv";
    private const string Yaml = "application/yaml";

    private static readonly string Examples = ServerProcess.BuildValue("Examples");

    private readonly HashSet<(string Path, string Method)> _used = [];
    private ApiDocument? _document;

    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    private static string InThreeWeeks => DateTime.UtcNow.AddDays(21).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Today => DateTime.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    [Fact]
    public async Task The_description_is_sound_and_describes_everything()
    {
        using HttpClient client = server.Client();
        await using Stream stream = await client.GetStreamAsync(new Uri(Root + "/openapi.json", UriKind.Relative), Cancellation);
        using MemoryStream copy = new();
        await stream.CopyToAsync(copy, Cancellation);
        copy.Position = 0;
        (OpenApiDocument? read, OpenApiDiagnostic? diagnostic) = await OpenApiDocument.LoadAsync(copy, "json", cancellationToken: Cancellation);

        Assert.Empty(diagnostic!.Errors.Select(e => e.ToString()));
        Assert.Empty(diagnostic.Warnings.Select(w => w.ToString()));
        OpenApiDocument document = read!;
        Assert.True(document.Paths.Count > 30);
        Assert.All(document.Paths, path => Assert.StartsWith(Root + "/", path.Key, StringComparison.Ordinal));
        string[] names = [.. document.Paths.SelectMany(p => p.Value.Operations!.Values).Select(o => o.OperationId!)];
        Assert.Equal(names.Length, names.Distinct().Count());
        Assert.All(document.Paths.SelectMany(p => p.Value.Operations!.Values), operation =>
        {
            Assert.False(string.IsNullOrWhiteSpace(operation.Summary), operation.OperationId);
            Assert.All(operation.Parameters ?? [], p => Assert.False(string.IsNullOrWhiteSpace(p.Description), $"{operation.OperationId} {p.Name}"));
            Assert.Contains("403", operation.Responses!.Keys);
        });

        // Every field of what is sent and answered says what it is; a shape of its own says it there.
        Assert.All(
            document.Components!.Schemas!.Where(s => s.Value.Properties is { Count: > 0 }).SelectMany(s => s.Value.Properties!.Where(p => p.Value is not OpenApiSchemaReference).Select(p => (Name: s.Key + "." + p.Key, p.Value.Description))),
            field => Assert.False(string.IsNullOrWhiteSpace(field.Description), field.Name));
    }

    [Fact]
    public async Task Every_operation_works_and_answers_as_described()
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);

        // Exams.
        JsonElement exam = await CallAsync(client, "post", "/exams", 201, content: Body(await FileAsync("exam.yaml"), Yaml), query: "?name=registrar.yaml");
        string examKey = exam.GetProperty("key").GetString()!;
        Assert.Equal("registrar.yaml", exam.GetProperty("versions")[0].GetProperty("name").GetString());
        Assert.Contains((await CallAsync(client, "get", "/exams", 200)).GetProperty("exams").EnumerateArray(), e => e.GetProperty("key").GetString() == examKey);
        await CallAsync(client, "get", "/exams/{key}", 200, examKey);
        await CallAsync(client, "get", "/exams/{key}/file", 200, examKey);
        Assert.Equal(8, (await CallAsync(client, "get", "/exams/{key}/document", 200, examKey)).GetProperty("sections").EnumerateArray().Sum(s => s.GetProperty("topics").GetArrayLength()));
        Assert.Equal(2, (await CallAsync(client, "post", "/exams/{key}/versions", 201, examKey, Body("# A second version.\n" + await FileAsync("exam.yaml"), Yaml))).GetProperty("versions").GetArrayLength());
        await CallAsync(client, "post", "/exams/{key}/resources", 201, examKey, Body(await FileAsync("resources.csv"), Csv));
        JsonElement withItems = await CallAsync(client, "post", "/exams/{key}/quiz-items", 201, examKey, Body(await FileAsync("quiz-items.csv"), Csv), query: "?name=quiz-items.csv");
        Assert.NotEmpty((await CallAsync(client, "get", "/exams/{key}/quiz-items", 200, examKey)).GetProperty("items").EnumerateArray());
        long itemFile = withItems.GetProperty("files").EnumerateArray().Single(f => f.GetProperty("role").GetString() == "quiz-items").GetProperty("id").GetInt64();
        await CallAsync(client, "get", "/exams/{key}/files/{id}", 200, examKey, id: itemFile);
        Assert.Equal(1, (await CallAsync(client, "post", "/exams/{key}/files/take-out", 200, examKey, Body($"{{\"ids\": [{itemFile}]}}", Json))).GetProperty("changed").GetInt32());
        Assert.Empty((await CallAsync(client, "get", "/exams/{key}/quiz-items", 200, examKey)).GetProperty("items").EnumerateArray());
        Assert.Equal(1, (await CallAsync(client, "post", "/exams/{key}/files/put-back", 200, examKey, Body($"{{\"ids\": [{itemFile}]}}", Json))).GetProperty("changed").GetInt32());

        // A case.
        string name = "Orla Quist " + Guid.NewGuid().ToString("N")[..6];
        JsonElement entered = await CallAsync(client, "post", "/cases", 201, content: Body(JsonSerializer.Serialize(new
        {
            candidate = name,
            examDay = InThreeWeeks,
            exam = examKey,
            evidence = new[] { new { name = "orla.csv", text = (await FileAsync("mara-venn.csv")).Replace("Mara Venn", name, StringComparison.Ordinal) } },
            freeTime = new { name = "free.yaml", text = await FileAsync("mara-venn.free.yaml") },
        }), Json));
        string key = entered.GetProperty("key").GetString()!;
        Assert.Equal(examKey, entered.GetProperty("exam").GetString());
        Assert.Contains((await CallAsync(client, "get", "/cases", 200, query: "?limit=500")).GetProperty("cases").EnumerateArray(), c => c.GetProperty("key").GetString() == key);
        Assert.Equal(0, (await CallAsync(client, "get", "/cases", 200, query: "?offset=100000&limit=1")).GetProperty("cases").GetArrayLength());
        await CallAsync(client, "get", "/cases/{key}", 200, key);

        // Documents: the shapes of the shell's, too.
        foreach ((string path, string schema, string query) in new[]
        {
            ("exam", "exam-output", ""),
            ("standing", "standing", ""),
            ("forecast", "forecast", ""),
            ("plan", "plan", "?hours=5&policy=practice-order"),
            ("assumptions", "assumptions", ""),
            ("decide/dates", "decide-date", "?retake-fee=180&postpone-fee=40"),
            ("decide/hours", "decide-hours", ""),
            ("decide/test", "decide-test", "?test=Cataloguing&items=12"),
        })
        {
            JsonElement document = await CallAsync(client, "get", "/cases/{key}/" + path, 200, key, query: query);
            JsonSchema published = JsonSchema.FromText(await File.ReadAllTextAsync(Path.Combine(Examples, "..", "..", "schemas", schema + ".schema.json"), Cancellation));
            Assert.True(published.Evaluate(document).IsValid, path);
        }

        Assert.Equal(8, (await CallAsync(client, "get", "/cases/{key}/worth", 200, key)).GetProperty("worth").GetArrayLength());
        double before = (await CallAsync(client, "get", "/cases/{key}/forecast", 200, key)).GetProperty("passChance").GetDouble();
        Assert.True((await CallAsync(client, "get", "/cases/{key}/forecast", 200, key, query: "?cut-1=90")).GetProperty("passChance").GetDouble() < before);

        // Test results: as rows with numbers and text, and as a file.
        JsonElement added = await CallAsync(client, "post", "/cases/{key}/evidence", 201, key, Body($$"""{"rows": [{"attempt": "quiz 7", "kind": "quiz", "date": "{{Today}}", "topic": "Cataloguing", "correct": 10, "items": "10"}]}""", Json));
        long row = added.GetProperty("ids")[0].GetInt64();
        Assert.NotEqual(before, (await CallAsync(client, "get", "/cases/{key}/forecast", 200, key)).GetProperty("passChance").GetDouble());
        JsonElement kept = (await CallAsync(client, "get", "/cases/{key}/evidence", 200, key)).GetProperty("rows").EnumerateArray().Single(r => r.GetProperty("id").GetInt64() == row);
        Assert.Equal((name, "10", JsonValueKind.Null), (kept.GetProperty("row").GetProperty("candidate").GetString(), kept.GetProperty("row").GetProperty("correct").GetString(), kept.GetProperty("row").GetProperty("item").ValueKind));
        Assert.Equal(1, (await CallAsync(client, "post", "/cases/{key}/evidence/take-out", 200, key, Body($"{{\"ids\": [{row}, 999999999]}}", Json))).GetProperty("changed").GetInt32());
        Assert.Equal(before, (await CallAsync(client, "get", "/cases/{key}/forecast", 200, key)).GetProperty("passChance").GetDouble());
        Assert.Equal(JsonValueKind.String, (await CallAsync(client, "get", "/cases/{key}/evidence", 200, key, query: "?all=true")).GetProperty("rows").EnumerateArray().Single(r => r.GetProperty("id").GetInt64() == row).GetProperty("removedAt").ValueKind);
        Assert.Equal(1, (await CallAsync(client, "post", "/cases/{key}/evidence/put-back", 200, key, Body($"{{\"ids\": [{row}]}}", Json))).GetProperty("changed").GetInt32());

        // Study.
        long session = (await CallAsync(client, "post", "/cases/{key}/sessions", 201, key, Body($"candidate,date,topic,minutes,how\n{name},{Today},Cataloguing,45,learn\n", Csv))).GetProperty("ids")[0].GetInt64();
        Assert.Equal("45", (await CallAsync(client, "get", "/cases/{key}/sessions", 200, key)).GetProperty("rows")[0].GetProperty("row").GetProperty("minutes").GetString());
        await CallAsync(client, "post", "/cases/{key}/sessions/take-out", 200, key, Body($"{{\"ids\": [{session}]}}", Json));
        await CallAsync(client, "post", "/cases/{key}/sessions/put-back", 200, key, Body($"{{\"ids\": [{session}]}}", Json));

        // Decisions move the exam day until they are taken out.
        string later = DateTime.UtcNow.AddDays(28).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        long decision = (await CallAsync(client, "post", "/cases/{key}/decisions", 201, key, Body($$"""{"text": "A week later.", "examDay": "{{later}}"}""", Json))).GetProperty("ids")[0].GetInt64();
        Assert.Equal(later, (await CallAsync(client, "get", "/cases/{key}", 200, key)).GetProperty("examDay").GetString());
        Assert.Equal("A week later.", (await CallAsync(client, "get", "/cases/{key}/decisions", 200, key)).GetProperty("rows")[0].GetProperty("row").GetProperty("text").GetString());
        await CallAsync(client, "post", "/cases/{key}/decisions/take-out", 200, key, Body($"{{\"ids\": [{decision}]}}", Json));
        Assert.Equal(InThreeWeeks, (await CallAsync(client, "get", "/cases/{key}", 200, key)).GetProperty("examDay").GetString());
        await CallAsync(client, "post", "/cases/{key}/decisions/put-back", 200, key, Body($"{{\"ids\": [{decision}]}}", Json));

        // Plans: one for each change.
        JsonElement[] plans = [.. (await CallAsync(client, "get", "/cases/{key}/plans", 200, key)).GetProperty("plans").EnumerateArray()];
        Assert.Equal("Your first plan.", plans[0].GetProperty("why").GetString());
        Assert.Contains(plans, p => p.GetProperty("why").GetString() == "Your coach added test results.");
        await CallAsync(client, "get", "/cases/{key}/plans/{id}", 200, key, id: plans[^1].GetProperty("id").GetInt64());

        // Files and words.
        long busy = (await CallAsync(client, "post", "/cases/{key}/files", 201, key, Body(JsonSerializer.Serialize(new { role = "busy", file = new { name = "busy.ics", base64 = Convert.ToBase64String(Encoding.UTF8.GetBytes(await FileAsync("mara-venn.busy.ics"))) } }), Json))).GetProperty("ids")[0].GetInt64();
        Assert.Contains((await CallAsync(client, "get", "/cases/{key}/files", 200, key)).EnumerateArray(), f => f.GetProperty("role").GetString() == "busy");
        await CallAsync(client, "post", "/cases/{key}/files/take-out", 200, key, Body($"{{\"ids\": [{busy}]}}", Json));
        await CallAsync(client, "post", "/cases/{key}/files/put-back", 200, key, Body($"{{\"ids\": [{busy}]}}", Json));
        Assert.Empty((await CallAsync(client, "get", "/cases/{key}/words", 200, key)).GetProperty("words").EnumerateArray());
        long word = (await CallAsync(client, "post", "/cases/{key}/words", 201, key, Body($"term,topic,definition,noted\naccession number,Cataloguing,the number of an object,{Today}\n", Csv))).GetProperty("ids")[0].GetInt64();
        Assert.Equal("accession number", (await CallAsync(client, "get", "/cases/{key}/words", 200, key, query: "?minutes=3")).GetProperty("words")[0].GetProperty("term").GetString());
        await CallAsync(client, "get", "/cases/{key}/words.csv", 200, key);
        await CallAsync(client, "post", "/cases/{key}/words/take-out", 200, key, Body($"{{\"ids\": [{word}]}}", Json));
        await CallAsync(client, "post", "/cases/{key}/words/put-back", 200, key, Body($"{{\"ids\": [{word}]}}", Json));

        // How the exam ended, with what the report says of topics.
        JsonElement recorded = await CallAsync(client, "post", "/cases/{key}/results", 201, key, Body($$"""{"date": "{{Today}}", "passed": false, "score": "61 of 110", "topics": [{"topic": "cataloguing", "figure": "9 of 23"}, {"topic": "Title and ethics", "figure": "41-60 %"}]}""", Json));
        long result = recorded.GetProperty("id").GetInt64();
        long[] reported = [.. recorded.GetProperty("evidence").EnumerateArray().Select(e => e.GetInt64())];
        JsonElement ended = Assert.Single((await CallAsync(client, "get", "/cases/{key}/results", 200, key)).GetProperty("rows").EnumerateArray());
        Assert.Equal((result, "coach", false, "61 of 110"), (ended.GetProperty("id").GetInt64(), ended.GetProperty("origin").GetString(), ended.GetProperty("row").GetProperty("passed").GetBoolean(), ended.GetProperty("row").GetProperty("score").GetString()));
        JsonElement[] topics = [.. (await CallAsync(client, "get", "/cases/{key}/evidence", 200, key)).GetProperty("rows").EnumerateArray().Where(r => reported.Contains(r.GetProperty("id").GetInt64())).Select(r => r.GetProperty("row"))];
        Assert.Equal([("official", "Cataloguing", "9"), ("official", "Title and ethics", null)], topics.Select(t => (t.GetProperty("kind").GetString(), t.GetProperty("topic").GetString(), t.GetProperty("correct").GetString())));
        Assert.Contains("Not passed on ", await client.GetStringAsync(new Uri($"/case/{key}/result", UriKind.Relative), Cancellation), StringComparison.Ordinal);
        Assert.Equal(1, (await CallAsync(client, "post", "/cases/{key}/results/take-out", 200, key, Body($"{{\"ids\": [{result}]}}", Json))).GetProperty("changed").GetInt32());
        Assert.Empty((await CallAsync(client, "get", "/cases/{key}/results", 200, key)).GetProperty("rows").EnumerateArray());
        Assert.Single((await CallAsync(client, "get", "/cases/{key}/results", 200, key, query: "?all=true")).GetProperty("rows").EnumerateArray());
        Assert.Equal(1, (await CallAsync(client, "post", "/cases/{key}/results/put-back", 200, key, Body($"{{\"ids\": [{result}]}}", Json))).GetProperty("changed").GetInt32());
        await CallAsync(client, "post", "/cases/{key}/results/take-out", 200, key, Body($"{{\"ids\": [{result}]}}", Json));

        // A room from a sheet: looked at, then imported.
        string evidence = await FileAsync("cohort.csv");
        StringContent Room(string? lines = null) => Body(RoomJson(examKey, "candidate,free\nAbel Amberlow,Mon Wed 19:00-20:30\nBrisa Amberlow,Sat 9:00-12:00\n", evidence, lines), Json);
        JsonElement look = await CallAsync(client, "post", "/candidates/preview", 200, content: Room());
        Assert.Equal(2, look.GetProperty("ready").GetInt32());
        JsonElement abel = look.GetProperty("people")[0];
        Assert.Equal((2, "Abel Amberlow", InThreeWeeks, "Europe/London", 180, 52, true), (abel.GetProperty("line").GetInt32(), abel.GetProperty("candidate").GetString(), abel.GetProperty("examDay").GetString(), abel.GetProperty("zone").GetString(), abel.GetProperty("minutesPerWeek").GetInt32(), abel.GetProperty("items").GetInt32(), abel.GetProperty("ready").GetBoolean()));
        Assert.Contains("Corin Amberlow", look.GetProperty("notInSheet").EnumerateArray().Select(n => n.GetString()));
        JsonElement imported = await CallAsync(client, "post", "/candidates/import", 201, content: Room("[3]"));
        Assert.Equal(examKey, imported.GetProperty("exam").GetString());
        JsonElement brisa = Assert.Single(imported.GetProperty("cases").EnumerateArray());
        Assert.Equal(("Brisa Amberlow", 3), (brisa.GetProperty("candidate").GetString(), brisa.GetProperty("line").GetInt32()));
        Assert.Equal(InThreeWeeks, (await CallAsync(client, "get", "/cases/{key}", 200, brisa.GetProperty("key").GetString()!)).GetProperty("examDay").GetString());

        // The personal link opens until it is revoked.
        Uri pages = new((await CallAsync(client, "put", "/cases/{key}/link", 201, key)).GetProperty("pages").GetString()!);
        Assert.Contains(name, await client.GetStringAsync(pages, Cancellation), StringComparison.Ordinal);
        await CallAsync(client, "delete", "/cases/{key}/link", 204, key);
        using (HttpResponseMessage revoked = await client.GetAsync(pages, Cancellation))
        {
            Assert.Equal(HttpStatusCode.NotFound, revoked.StatusCode);
        }

        // Removed, brought back; out as files, erased, in again, erased.
        await CallAsync(client, "delete", "/cases/{key}", 204, key);
        await CallAsync(client, "get", "/cases/{key}", 404, key);
        Assert.Contains((await CallAsync(client, "get", "/cases", 200, query: "?removed=true&limit=500")).GetProperty("cases").EnumerateArray(), c => c.GetProperty("key").GetString() == key);
        await CallAsync(client, "post", "/cases/{key}/restore", 204, key, Body("{}", Json));
        await CallAsync(client, "get", "/export", 200);
        byte[] zip = await client.GetByteArrayAsync(new Uri($"{Root}/cases/{key}/export", UriKind.Relative), Cancellation);
        await CallAsync(client, "get", "/cases/{key}/export", 200, key);
        await CallAsync(client, "post", "/cases/{key}/erase", 204, key, Body("{\"sure\": true}", Json));
        Assert.Equal(1, (await CallAsync(client, "post", "/import", 200, content: Body(zip, "application/zip"))).GetProperty("cases").GetInt32());
        await CallAsync(client, "get", "/cases/{key}", 200, key);
        await CallAsync(client, "post", "/cases/{key}/erase", 204, key, Body("{\"sure\": true}", Json));

        Assert.Empty(_document.Operations.Except(_used));
    }

    [Theory]
    [InlineData("get", "/cases", 400, null, null, "limit is a whole number from 1 to 500", "?limit=0")]
    [InlineData("get", "/cases", 400, null, null, "limit", "?limit=many")]
    [InlineData("get", "/cases/{key}/forecast", 404, null, null, "There is no case 'nobody'")]
    [InlineData("get", "/cases/{key}", 404, null, null, "There is no case 'nobody'")]
    [InlineData("get", "/exams/{key}", 404, null, null, "There is no exam 'nobody'")]
    [InlineData("get", "/cases/{key}/plans/{id}", 404, null, null, "has no plan 1")]
    [InlineData("post", "/cases", 415, "{}", "text/plain", "Content-Type must be application/json")]
    [InlineData("post", "/cases", 415, "{}", null, "Content-Type must be application/json")]
    [InlineData("post", "/cases", 400, "{", Json, "is no JSON")]
    [InlineData("post", "/cases", 400, "{}", Json, "These are missing here: 'examDay'")]
    [InlineData("post", "/cases", 400, "{\"examDay\": \"2026-12-16\", \"examday\": 1}", Json, "unknown name")]
    [InlineData("post", "/cases", 400, "null", Json, "an object is expected")]
    [InlineData("post", "/cases", 422, "{\"examDay\": \"2026-12-16\"}", Json, "Give either exam")]
    [InlineData("post", "/cases", 422, "{\"examDay\": \"2026-12-16\", \"exam\": \"exam-none\"}", Json, "No exam of this key is kept")]
    [InlineData("post", "/cases", 422, "{\"examDay\": \"2026-12-16\", \"examFile\": {\"name\": \"a.yaml\"}}", Json, "either text or base64")]
    [InlineData("post", "/cases", 422, "{\"examDay\": \"2026-12-16\", \"examFile\": {\"name\": \"a.yaml\", \"base64\": \"!\"}}", Json, "no Base64")]
    [InlineData("post", "/exams", 415, "exam: x", "text/yaml", "Content-Type must be application/yaml")]
    [InlineData("post", "/cases/{key}/evidence", 404, "{\"rows\": []}", Json, "There is no case 'nobody'")]
    [InlineData("post", "/cases/{key}/erase", 422, "{\"sure\": false}", Json, "cannot be undone")]
    [InlineData("post", "/import", 422, "this is no zip", "application/zip", "no zip file")]
    public async Task What_is_wrong_is_said_as_problem_details(string method, string path, int status, string? body, string? type, string words, string query = "")
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);
        JsonElement problem = await CallAsync(client, method, path, status, "nobody", body is null ? null : Body(body, type), query, id: 1);

        Assert.Equal(status, problem.GetProperty("status").GetInt32());
        Assert.Equal($"/api#status-{status}", problem.GetProperty("type").GetString());
        Assert.StartsWith(Root, problem.GetProperty("instance").GetString(), StringComparison.Ordinal);
        Assert.Contains(words, problem.ToString(), StringComparison.Ordinal);
        Assert.DoesNotMatch(@"Exception|   at |Homestretch\.", problem.ToString());
        Assert.Contains($"id=\"status-{status}\"", await client.GetStringAsync(new Uri("/api", UriKind.Relative), Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_query_that_cannot_be_used_is_no_silent_default()
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);
        JsonElement problem = await CallAsync(client, "get", "/cases/{key}/plan", 400, "mara-venn", query: "?hours=99&day=2026-02-30&policy=best&hour=3");

        JsonElement[] errors = [.. problem.GetProperty("errors").EnumerateArray()];
        Assert.Equal(["hour", "day", "hours", "policy"], errors.Select(e => e.GetProperty("field").GetString()));
        Assert.Equal(["3", "2026-02-30", "99", "best"], errors.Select(e => e.GetProperty("value").GetString()));
        Assert.Contains("'2026-02-30' is not", errors[1].GetProperty("message").GetString(), StringComparison.Ordinal);
        await CallAsync(client, "get", "/cases/{key}/decide/dates", 400, "mara-venn", query: "?goal=never");
        await CallAsync(client, "get", "/cases/{key}/decide/test", 400, "mara-venn", query: "?test=Pottery");
    }

    [Fact]
    public async Task Files_and_rows_are_refused_line_by_line_and_nothing_is_kept()
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);
        string key = await EnterAsync(client);
        long before = (await CallAsync(client, "get", "/cases/{key}/evidence", 200, key)).GetProperty("rows").GetArrayLength();

        JsonElement file = await CallAsync(client, "post", "/cases/{key}/evidence", 422, key, Body("candidate,attempt,kind,date,topic,correct,items\nInes Harrow,q,quiz,2026-11-20,Cataloging,3,2\n", Csv), "?name=quiz.csv");
        Assert.All(file.GetProperty("errors").EnumerateArray(), e => Assert.Equal(("quiz.csv", 2), (e.GetProperty("file").GetString(), e.GetProperty("line").GetInt32())));
        Assert.Contains("Did you mean 'Cataloguing'?", file.ToString(), StringComparison.Ordinal);

        JsonElement rows = await CallAsync(
            client, "post", "/cases/{key}/evidence", 422, key,
            Body("""{"rows": [{"attempt": "q", "kind": "quiz", "date": "2026-11-20", "topic": "Cataloguing", "correct": 1, "items": 2}, {"attempt": "q", "kind": "riddle", "date": "2026-11-20", "topic": "Loans and insurance", "correct": 1, "items": 2}]}""", Json));
        JsonElement error = Assert.Single(rows.GetProperty("errors").EnumerateArray());
        Assert.Equal("/rows/1", error.GetProperty("pointer").GetString());
        Assert.Contains("'riddle' is not a kind of test", error.GetProperty("message").GetString(), StringComparison.Ordinal);

        await CallAsync(client, "post", "/cases/{key}/evidence", 400, key, Body("""{"rows": [{"topic": true}]}""", Json));
        await CallAsync(client, "post", "/cases/{key}/evidence", 422, key, Body("""{"rows": []}""", Json));
        await CallAsync(client, "post", "/cases/{key}/decisions", 422, key, Body("""{"text": " ", "examDay": "tomorrow"}""", Json));
        await CallAsync(client, "post", "/cases/{key}/files", 422, key, Body("""{"role": "exam", "file": {"name": "a", "text": "b"}}""", Json));
        await CallAsync(client, "post", "/cases/{key}/words", 422, key, Body("term,noted\nfrass,soon\n", Csv));
        Assert.Equal(before, (await CallAsync(client, "get", "/cases/{key}/evidence", 200, key)).GetProperty("rows").GetArrayLength());

        // An exam file that a case cannot be read with.
        string exam = (await CallAsync(client, "get", "/cases/{key}", 200, key)).GetProperty("exam").GetString()!;
        JsonElement conflict = await CallAsync(client, "post", "/exams/{key}/versions", 409, exam, Body((await FileAsync("exam.yaml")).Replace("Cataloguing", "Recording", StringComparison.Ordinal), Yaml));
        Assert.Matches($"In the case '{key}': Ines Harrow [0-9a-f]+: Cataloguing", Assert.Single(conflict.GetProperty("errors").EnumerateArray()).GetProperty("message").GetString());
        Assert.Contains("has no place for what these people's results, study or words are about. Keep these topics under their names.", conflict.GetProperty("detail").GetString(), StringComparison.Ordinal);

        // The file that counts already is no new version; another one is, and the plan says what changed, as on the pages.
        string yaml = await client.GetStringAsync(new Uri($"{Root}/exams/{exam}/file", UriKind.Relative), Cancellation);
        Assert.Equal(1, (await CallAsync(client, "post", "/exams/{key}/versions", 200, exam, Body(yaml, Yaml))).GetProperty("versions").GetArrayLength());
        await CallAsync(client, "post", "/exams/{key}/versions", 201, exam, Body(yaml.Replace("Cataloguing", "cataloguing", StringComparison.Ordinal), Yaml));
        Assert.Contains((await CallAsync(client, "get", "/cases/{key}/plans", 200, key)).GetProperty("plans").EnumerateArray(), p => p.GetProperty("why").GetString()!.StartsWith("The blueprint ", StringComparison.Ordinal));
        JsonElement broken = await CallAsync(client, "post", "/exams", 422, content: Body("exam: x\n", Yaml), query: "?name=broken.yaml");
        Assert.All(broken.GetProperty("errors").EnumerateArray(), e => Assert.Equal("broken.yaml", e.GetProperty("file").GetString()));
        await CallAsync(client, "post", "/cases/{key}/erase", 204, key, Body("{\"sure\": true}", Json));
    }

    [Fact]
    public async Task A_result_that_cannot_be_is_refused_place_by_place()
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);
        string key = await EnterAsync(client);
        JsonElement typed = await CallAsync(
            client, "post", "/cases/{key}/results", 422, key,
            Body($$"""{"date": "2199-01-01", "passed": true, "score": "{{new string('9', 41)}}", "topics": [{"topic": "Cataloging", "figure": "1 of 2"}, {"topic": "Cataloguing", "figure": "good"}, {"topic": "Cataloguing", "figure": "1 of 2"}, {"topic": "Title and ethics", "figure": " "}]}""", Json));
        Assert.Equal(
            ["/topics/0/topic", "/topics/2/topic", "/topics/3/figure", "/date", "/score", "/topics/1/figure"],
            typed.GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("pointer").GetString()));
        Assert.Contains("Did you mean 'Cataloguing'?", typed.ToString(), StringComparison.Ordinal);
        Assert.Contains("'good' will not do; write 12 of 21, 57 % or 41-60 %", typed.ToString(), StringComparison.Ordinal);

        // What only the reader of evidence knows is said of the topic it is about.
        JsonElement read = await CallAsync(client, "post", "/cases/{key}/results", 422, key, Body($$"""{"date": "{{Today}}", "passed": true, "topics": [{"topic": "Title and ethics", "figure": "3 of 5"}, {"topic": "Cataloguing", "figure": "25 of 23"}]}""", Json));
        Assert.Equal("/topics/1/figure", Assert.Single(read.GetProperty("errors").EnumerateArray()).GetProperty("pointer").GetString());
        Assert.Contains("'passed'", (await CallAsync(client, "post", "/cases/{key}/results", 400, key, Body($$"""{"date": "{{Today}}"}""", Json))).ToString(), StringComparison.Ordinal);
        Assert.Empty((await CallAsync(client, "get", "/cases/{key}/results", 200, key, query: "?all=true")).GetProperty("rows").EnumerateArray());
        await CallAsync(client, "post", "/cases/{key}/erase", 204, key, Body("{\"sure\": true}", Json));
    }

    [Fact]
    public async Task A_room_is_imported_whole_or_not_at_all_and_each_row_says_what_is_wrong()
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);
        string name = "Room " + Guid.NewGuid().ToString("N");
        string exam = (await CallAsync(client, "post", "/exams", 201, content: Body((await FileAsync("exam.yaml")).Replace("exam: ", $"exam: {name} ", StringComparison.Ordinal), Yaml))).GetProperty("key").GetString()!;
        string evidence = await FileAsync("cohort.csv");
        const string Sheet = "candidate,free\nAbel Amberlow,Mon 19:00-20:30\nBrisa Amberlo,Mon 19:00-20:30\nCorin Amberlow,Wensday 19:00-20:00\n";

        JsonElement[] people = [.. (await CallAsync(client, "post", "/candidates/preview", 200, content: Body(RoomJson(exam, Sheet, evidence), Json))).GetProperty("people").EnumerateArray()];
        Assert.Equal([true, false, false], people.Select(p => p.GetProperty("ready").GetBoolean()));
        JsonElement wrong = Assert.Single(people[2].GetProperty("errors").EnumerateArray());
        Assert.Equal(("room.csv", 4), (wrong.GetProperty("file").GetString(), wrong.GetProperty("line").GetInt32()));
        Assert.Contains("column 'free': 'Wensday' is not a day of the week; did you mean Wednesday?", wrong.GetProperty("message").GetString(), StringComparison.Ordinal);

        // One row in the way keeps everybody out; so does a line that is none.
        JsonElement refused = await CallAsync(client, "post", "/candidates/import", 422, content: Body(RoomJson(exam, Sheet, evidence), Json));
        Assert.Equal([3, 4], refused.GetProperty("errors").EnumerateArray().Select(e => e.GetProperty("line").GetInt32()));
        Assert.Contains("Did you mean 'Brisa Amberlow'?", refused.ToString(), StringComparison.Ordinal);
        JsonElement none = await CallAsync(client, "post", "/candidates/import", 422, content: Body(RoomJson(exam, Sheet, evidence, "[2, 9]"), Json));
        Assert.Equal(("/lines/1", "9"), (none.GetProperty("errors")[0].GetProperty("pointer").GetString(), none.GetProperty("errors")[0].GetProperty("value").GetString()));
        Assert.Contains("it has people in lines 2-4", none.ToString(), StringComparison.Ordinal);
        await CallAsync(client, "post", "/candidates/import", 422, content: Body(RoomJson(exam, Sheet, evidence, "[]"), Json));
        Assert.Empty(await PeopleAsync());

        Assert.Single((await CallAsync(client, "post", "/candidates/import", 201, content: Body(RoomJson(exam, Sheet, evidence, "[2]"), Json))).GetProperty("cases").EnumerateArray());
        JsonElement again = await CallAsync(client, "post", "/candidates/import", 422, content: Body(RoomJson(exam, Sheet, evidence, "[2]"), Json));
        Assert.Contains("Abel Amberlow has a case for this exam already", again.ToString(), StringComparison.Ordinal);
        Assert.Equal(["Abel Amberlow"], await PeopleAsync());

        // Whole files that cannot be used, and what stands beside them.
        JsonElement files = await CallAsync(client, "post", "/candidates/preview", 422, content: Body(RoomJson(exam, "name,freetime\nAda,Mon\n", "candidate;date\nAda;2026-11-20\n", zone: "Mars/Olympus"), Json));
        Assert.Contains(files.GetProperty("errors").EnumerateArray(), e => e.GetProperty("pointer").GetString() == "/zone" && e.GetProperty("message").GetString()!.Contains("'Mars/Olympus' is not a known time zone", StringComparison.Ordinal));
        Assert.Contains(files.GetProperty("errors").EnumerateArray(), e => e.GetProperty("file").GetString() == "room.csv" && e.GetProperty("line").GetInt32() == 1);
        Assert.Contains("Did you mean 'free time'?", files.ToString(), StringComparison.Ordinal);
        JsonElement unknown = await CallAsync(client, "post", "/candidates/preview", 422, content: Body(RoomJson("exam-none", Sheet, evidence), Json));
        Assert.Equal(("/exam", "exam-none"), (unknown.GetProperty("errors")[0].GetProperty("pointer").GetString(), unknown.GetProperty("errors")[0].GetProperty("value").GetString()));
        Assert.Contains("'sheet', 'evidence'", (await CallAsync(client, "post", "/candidates/preview", 400, content: Body("{}", Json))).ToString(), StringComparison.Ordinal);

        async Task<string?[]> PeopleAsync()
            => [.. (await CallAsync(client, "get", "/cases", 200, query: "?limit=500")).GetProperty("cases").EnumerateArray().Where(c => c.GetProperty("examName").GetString()!.Contains(name, StringComparison.Ordinal)).Select(c => c.GetProperty("candidate").GetString())];
    }

    [Fact]
    public async Task A_case_can_be_entered_with_rows_and_its_state_is_named()
    {
        using HttpClient client = server.Client();
        _document = await ApiDocument.GetAsync(client, Cancellation);
        string key = await EnterAsync(client);
        using HttpResponseMessage first = await client.GetAsync(new Uri($"{Root}/cases/{key}", UriKind.Relative), Cancellation);
        EntityTagHeaderValue state = first.Headers.ETag!;
        using (HttpRequestMessage again = new(HttpMethod.Get, $"{Root}/cases/{key}") { Headers = { IfNoneMatch = { state } } })
        using (HttpResponseMessage same = await client.SendAsync(again, Cancellation))
        {
            Assert.Equal(HttpStatusCode.NotModified, same.StatusCode);
        }

        foreach ((EntityTagHeaderValue seen, HttpStatusCode status) in new[] { (state, HttpStatusCode.Created), (state, HttpStatusCode.PreconditionFailed) })
        {
            using HttpRequestMessage add = new(HttpMethod.Post, $"{Root}/cases/{key}/sessions")
            {
                Headers = { IfMatch = { seen } },
                Content = Body($$"""{"rows": [{"date": "{{Today}}", "topic": "Cataloguing", "minutes": {{(status == HttpStatusCode.Created ? 30 : 31)}}, "how": "learn"}]}""", Json),
            };
            using HttpResponseMessage answer = await client.SendAsync(add, Cancellation);
            Assert.Equal(status, answer.StatusCode);
            await _document.CheckAsync(Root + "/cases/{key}/sessions", "post", answer, Cancellation);
        }

        await CallAsync(client, "post", "/cases/{key}/erase", 204, key, Body("{\"sure\": true}", Json));
    }

    [Theory]
    [InlineData("Origin", "http://evil.example", 403)]
    [InlineData("Origin", "null", 403)]
    [InlineData("Origin", "http://127.0.0.1:1", 403)]
    [InlineData("Sec-Fetch-Site", "cross-site", 403)]
    [InlineData("Sec-Fetch-Site", "same-site", 403)]
    [InlineData("Sec-Fetch-Site", "same-origin", 200)]
    [InlineData("Sec-Fetch-Site", "none", 200)]
    public async Task Pages_of_other_sites_get_nothing(string header, string value, int status)
    {
        using HttpClient client = server.Client();
        foreach (string path in new[] { "/cases", "/cases/mara-venn/exam", "/openapi.json" })
        {
            using HttpRequestMessage request = new(HttpMethod.Get, Root + path);
            request.Headers.Add(header, value);
            using HttpResponseMessage answer = await client.SendAsync(request, Cancellation);
            Assert.Equal(status, (int)answer.StatusCode);
            Assert.False(answer.Headers.Contains("Access-Control-Allow-Origin"));
        }
    }

    [Theory]
    [InlineData("text/plain")]
    [InlineData("application/x-www-form-urlencoded")]
    [InlineData("multipart/form-data; boundary=x")]
    [InlineData(null)]
    public async Task Nothing_changes_by_what_a_page_may_send_without_asking(string? type)
    {
        using HttpClient client = server.Client();
        ApiDocument document = await ApiDocument.GetAsync(client, Cancellation);
        foreach ((string path, _) in document.Operations.Where(o => o.Method == "post"))
        {
            using HttpRequestMessage request = new(HttpMethod.Post, path.Replace("{key}", "mara-venn", StringComparison.Ordinal)) { Content = Body("{}", type) };
            using HttpResponseMessage answer = await client.SendAsync(request, Cancellation);

            // Rows and the like ask for the case first, and the demo's is not kept.
            Assert.True(answer.StatusCode is HttpStatusCode.UnsupportedMediaType or HttpStatusCode.NotFound, $"{path} {(int)answer.StatusCode}");
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        }

        using HttpRequestMessage preflight = new(HttpMethod.Options, Root + "/cases");
        preflight.Headers.Add("Origin", "http://evil.example");
        preflight.Headers.Add("Access-Control-Request-Method", "POST");
        using HttpResponseMessage refused = await client.SendAsync(preflight, Cancellation);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
        Assert.False(refused.Headers.Contains("Access-Control-Allow-Origin"));
    }

    [Fact]
    public async Task A_foreign_host_name_an_unknown_address_and_too_much_are_refused()
    {
        using HttpClient client = server.Client();
        using (HttpRequestMessage request = new(HttpMethod.Get, Root + "/cases") { Headers = { Host = "evil.example" } })
        using (HttpResponseMessage answer = await client.SendAsync(request, Cancellation))
        {
            Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        }

        foreach ((HttpMethod method, string path, int status) in new[] { (HttpMethod.Get, "/nothing", 404), (HttpMethod.Put, "/cases", 405), (HttpMethod.Get, "/cases/mara-venn/plans/x", 400) })
        {
            using HttpRequestMessage request = new(method, Root + path);
            using HttpResponseMessage answer = await client.SendAsync(request, Cancellation);
            Assert.Equal(status, (int)answer.StatusCode);
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        }

        using ByteArrayContent large = new(new byte[26 * 1024 * 1024]) { Headers = { ContentType = new(Yaml) } };
        using HttpResponseMessage refused = await client.PostAsync(new Uri(Root + "/exams", UriKind.Relative), large, Cancellation);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, refused.StatusCode);
        Assert.Contains("at most 25 MB", await refused.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_candidates_door_knows_nothing_of_it()
    {
        string data = Path.Combine(Path.GetTempPath(), "homestretch-web-" + Guid.NewGuid().ToString("N"));
        try
        {
            using TcpListener free = new(IPAddress.Loopback, 0);
            free.Start();
            int port = ((IPEndPoint)free.LocalEndpoint).Port;
            free.Stop();
            await using ServerProcess both = await ServerProcess.StartAsync(data, "Production", "--candidates", $"http://127.0.0.1:{port}");
            using HttpClient client = new();
            foreach (string path in new[] { "/cases", "/openapi.json", "/exams", "/export" })
            {
                using HttpResponseMessage closed = await client.GetAsync(new Uri($"http://127.0.0.1:{port}{Root}{path}"), Cancellation);
                Assert.Equal(HttpStatusCode.NotFound, closed.StatusCode);
                Uri coach = both.Addresses.Single(a => a.Port != port);
                using HttpResponseMessage open = await client.GetAsync(new Uri(coach, Root + path), Cancellation);
                Assert.Equal(HttpStatusCode.OK, open.StatusCode);
            }
        }
        finally
        {
            Directory.Delete(data, recursive: true);
        }
    }

    [Fact]
    public async Task The_page_about_it_lists_every_operation_with_an_example()
    {
        using HttpClient client = server.Client();
        ApiDocument document = await ApiDocument.GetAsync(client, Cancellation);
        string html = WebUtility.HtmlDecode(await client.GetStringAsync(new Uri("/api", UriKind.Relative), Cancellation));

        Assert.All(document.Operations, o => Assert.Contains($"{o.Method.ToUpperInvariant()} {o.Path}<", html, StringComparison.Ordinal));
        Assert.Contains($"curl {server.Process.Address}api/v1/cases?limit=20", html, StringComparison.Ordinal);
    }

    private static async Task<string> EnterAsync(HttpClient client)
    {
        string name = "Ines Harrow " + Guid.NewGuid().ToString("N")[..6];
        using StringContent body = Body(JsonSerializer.Serialize(new
        {
            candidate = name,
            examDay = InThreeWeeks,
            examFile = new { name = "exam.yaml", text = $"# {name}\n" + await FileAsync("exam.yaml") },
            evidenceRows = new object[] { new { attempt = "first", kind = "diagnostic", date = Today, topic = "Cataloguing", correct = 6, items = 9 }, new { attempt = "first", kind = "diagnostic", date = Today, topic = "Title and ethics", correct = "3", items = "6" } },
            freeTime = new { name = "free.yaml", text = await FileAsync("mara-venn.free.yaml") },
        }), Json);
        using HttpResponseMessage answer = await client.PostAsync(new Uri(Root + "/cases", UriKind.Relative), body, Cancellation);
        string text = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.True(answer.StatusCode == HttpStatusCode.Created, text);
        using JsonDocument document = JsonDocument.Parse(text);
        return document.RootElement.GetProperty("key").GetString()!;
    }

    private static string RoomJson(string exam, string sheet, string evidence, string? lines = null, string zone = "Europe/London")
        => JsonSerializer.Serialize(new
        {
            exam,
            sheet = new { name = "room.csv", text = sheet },
            evidence = new[] { new { name = "evidence.csv", text = evidence } },
            zone,
            examDay = InThreeWeeks,
            lines = lines is null ? null : JsonSerializer.Deserialize<int[]>(lines),
        });

    private static Task<string> FileAsync(string name) => File.ReadAllTextAsync(Path.Combine(Examples, name), Cancellation);

    private static StringContent Body(string text, string? type)
    {
        StringContent content = new(text);
        content.Headers.ContentType = type is null ? null : MediaTypeHeaderValue.Parse(type);
        return content;
    }

    private static ByteArrayContent Body(byte[] bytes, string type) => new(bytes) { Headers = { ContentType = new(type) } };

    /// <summary>Calls an operation, notes that it was, and checks its answer with the description.</summary>
    private async Task<JsonElement> CallAsync(HttpClient client, string method, string path, int status, string key = "", HttpContent? content = null, string query = "", long id = 0)
    {
        string address = Root + path.Replace("{key}", key, StringComparison.Ordinal).Replace("{id}", id.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal) + query;
        using HttpRequestMessage request = new(new HttpMethod(method.ToUpperInvariant()), address) { Content = content };
        using HttpResponseMessage answer = await client.SendAsync(request, Cancellation);
        string text = await answer.Content.ReadAsStringAsync(Cancellation);
        Assert.True(status == (int)answer.StatusCode, $"{method} {address}: {(int)answer.StatusCode} {text[..Math.Min(text.Length, 1500)]}");
        await _document!.CheckAsync(Root + path, method, answer, Cancellation);
        _used.Add((Root + path, method));
        if (answer.Content.Headers.ContentType?.MediaType?.EndsWith("json", StringComparison.Ordinal) != true)
        {
            return default;
        }

        using JsonDocument document = JsonDocument.Parse(text);
        return document.RootElement.Clone();
    }
}
