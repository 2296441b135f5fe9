using System.Text.Json;
using System.Text.RegularExpressions;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;

using Json.Schema;

namespace Homestretch.Files.Tests;

/// <summary>The schemas, the pages, the demo and the readers agree.</summary>
public partial class YamlSchemaTests
{
    private static readonly JsonSchema ExamSchema = Schema("exam.schema.json");
    private static readonly JsonSchema FreeTimeSchema = Schema("free-time.schema.json");

    // Mistakes a schema cannot see: they lie between two values, in the text itself, or in a list of names.
    private static readonly string[] BeyondTheSchema =
    [
        "alias-bomb", "anchors", "aliases", "bands-reversed", "broken-bracket", "broken-indentation", "broken-quotation", "broken-yaml", "control-character",
        "control-character-escaped", "binary", "complex-key", "cut-above-items", "duplicate-keys", "empty", "items-heavier-than-section", "items-sum-wrong", "latin-1", "merge-key",
        "missing-space-after-colon", "more-topics-than-items", "names-used-twice", "only-comments", "percentages-sum-to-102", "percentages-sum-to-83", "ranges-too-high",
        "ranges-too-low", "rule-does-not-use-section-cuts", "rule-does-not-use-total", "rule-missing", "rule-needs-minimums", "rule-needs-section-cuts",
        "rule-needs-total", "scaled-line-falls", "scaled-mark-outside", "self-alias", "source-day-that-is-not", "subtopic-heavier-than-topic", "subtopic-items-sum-wrong",
        "subtopic-named-twice", "subtopic-percent-of-section", "subtopic-weights-in-part", "tab-indented", "tagged", "too-many-items-in-all", "topic-without-items", "total-above-items",
        "two-documents", "units-mixed", "utf-16", "cap-above-a-day", "cap-in-parts-of-minutes", "cap-of-nothing", "day-given-twice", "window-runs-backwards",
        "zone-misspelt", "zone-nowhere", "zone-offset", "zone-town-only", "nested-too-deep", "subtopic-percent-over-100",
    ];

    public static TheoryData<string> DemoFiles() => [.. Directory.GetFiles(TestFiles.Demo(""), "*.free.yaml").Select(f => Path.GetFileName(f)!)];

    public static TheoryData<string, int> Examples()
    {
        TheoryData<string, int> examples = [];
        foreach (string page in new[] { "exam-file.md", "free-time-file.md" })
        {
            for (int i = 0; i < YamlBlocks(page).Count; i++)
            {
                examples.Add(page, i);
            }
        }

        return examples;
    }

    public static TheoryData<string, string> MistakesTheSchemaSees() =>
        [.. new[] { "exam", "free-time" }.SelectMany(kind => Directory.GetFiles(TestFiles.Cases(kind), "*.yaml")
            .Select(f => Path.GetFileNameWithoutExtension(f)!).Except(BeyondTheSchema).Order(StringComparer.Ordinal).Select(name => (kind, name)))];

    [Fact]
    public void The_demo_exam_fits_its_schema() => AssertFits(ExamSchema, File.ReadAllText(TestFiles.Demo("exam.yaml")));

    [Theory]
    [MemberData(nameof(DemoFiles))]
    public void The_demos_free_times_fit_their_schema(string file) => AssertFits(FreeTimeSchema, File.ReadAllText(TestFiles.Demo(file)));

    [Theory]
    [MemberData(nameof(Examples))]
    public void An_example_of_a_page_can_be_read_and_fits_its_schema(string page, int index)
    {
        string yaml = YamlBlocks(page)[index];
        if (page == "exam-file.md")
        {
            Assert.Empty(ExamFile.Parse(page, yaml).Problems);
            AssertFits(ExamSchema, yaml);
        }
        else
        {
            Assert.Empty(FreeTimeFile.Parse(page, yaml).Problems);
            AssertFits(FreeTimeSchema, yaml);
        }
    }

    [Fact]
    public void The_pages_have_examples()
    {
        Assert.Equal(2, YamlBlocks("exam-file.md").Count);
        Assert.Equal(2, YamlBlocks("free-time-file.md").Count);
    }

    [Theory]
    [MemberData(nameof(MistakesTheSchemaSees))]
    public void A_malformed_file_does_not_fit_its_schema(string kind, string name)
    {
        string yaml = File.ReadAllText(Path.Combine(TestFiles.Cases(kind), name + ".yaml"));
        Assert.False(Evaluate(kind == "exam" ? ExamSchema : FreeTimeSchema, yaml).IsValid);
    }

    [Theory]
    [InlineData("18 items")]
    [InlineData("1 item")]
    [InlineData("30 %")]
    [InlineData("30%")]
    [InlineData("12.5 percent")]
    [InlineData("25-35 %")]
    [InlineData("25 – 35 %")]
    [InlineData("25 to 35 per cent")]
    [InlineData("25% to 35%")]
    [InlineData("30")]
    [InlineData("20-30")]
    [InlineData("12,5 %")]
    [InlineData("10-12 items")]
    [InlineData("2.5 items")]
    [InlineData("0 items")]
    [InlineData("a lot")]
    [InlineData("-5 %")]
    public void Schema_and_reader_agree_on_the_form_of_a_weight(string weight)
    {
        string yaml = $"""
            exam: Registrar
            sections:
              - name: Care
                scored-items: 40
                options: 4
                pass: {"{percent: 65}"}
                topics:
                  - name: Cataloguing
                    weight: "{weight}"
            """;
        ReadResult<Exam> result = ExamFile.Parse("exam.yaml", yaml);
        bool formIsAccepted = !result.Problems.Any(p => p.Line == 9);
        Assert.Equal(formIsAccepted, Evaluate(ExamSchema, yaml).IsValid);
    }

    private static JsonSchema Schema(string file) => JsonSchema.FromText(File.ReadAllText(Path.Combine(TestFiles.Root, "schemas", file)));

    private static EvaluationResults Evaluate(JsonSchema schema, string yaml)
    {
        JsonElement element = JsonSerializer.SerializeToElement(YamlAsJson.Convert(yaml));
        return schema.Evaluate(element, new EvaluationOptions { OutputFormat = OutputFormat.List });
    }

    private static void AssertFits(JsonSchema schema, string yaml)
    {
        EvaluationResults results = Evaluate(schema, yaml);
        string errors = string.Join('\n', (results.Details ?? []).Where(d => d.Errors is not null).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}")));
        Assert.True(results.IsValid, errors);
    }

    private static List<string> YamlBlocks(string page) =>
        [.. YamlBlock().Matches(File.ReadAllText(Path.Combine(TestFiles.Root, "docs", page))).Select(m => m.Groups["yaml"].Value)];

    [GeneratedRegex("^```yaml\n(?<yaml>.*?)^```$", RegexOptions.Singleline | RegexOptions.Multiline)]
    private static partial Regex YamlBlock();
}
