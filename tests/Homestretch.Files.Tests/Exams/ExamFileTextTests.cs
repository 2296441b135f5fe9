using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Exams;
using Homestretch.Files.Exams.Editing;

using NodaTime;

namespace Homestretch.Files.Tests.Exams;

/// <summary>Whatever exam is written, reading it gives the same exam.</summary>
public partial class ExamFileTextTests
{
    private static readonly Gen<string> Names = Gen.Frequency(
        (3, Pick("Lamps", "Lenses", "Oil: heavy and light", "- dash first", "'quoted'", "\"double\"", "# no comment", "true", "NULL", "1984", "12.5", "2026-02-01", "~", "a: b", "[x]", "{y}", "&z", "*z", "!t", "%p", "@q", "`r`", "|", ">", "? k", "back\\slash", "Ünïcode", "日本語", "😀 lights", "<script>alert(1)</script>", "=1+1", "x #y", "trailing:")),
        (2, Gen.String[Gen.Char["abcXYZ019 :#-'\"\\[]{}&*!|>%@`,.?/()é–"], 1, 30]));

    private static readonly Gen<double> Scaled = Gen.Select(Gen.Int[-999_999, 999_999], Pick(1.0, 10.0, 1000.0, 1_000_000.0), (n, d) => n / d);

    private static readonly Gen<Weight> PercentWeights = Gen.Select(Gen.Int[1, 999], Gen.Int[0, 999], Gen.Bool, (low, more, range) => range ? Weight.PercentRange(low / 10.0, Math.Min(100, (low + more) / 10.0)) : Weight.Percent(low / 10.0));

    public static TheoryData<string> Blocks =>
        [.. YamlBlock().Matches(File.ReadAllText(Path.Combine(TestFiles.Root, "docs", "exam-file.md"))).Select(m => m.Groups[1].Value)];

    [Fact]
    public void The_demos_exam_reads_back()
    {
        Exam exam = ExamFile.Read(TestFiles.Demo("exam.yaml")).Value!;
        AssertReadsBack(exam);
    }

    [Theory]
    [MemberData(nameof(Blocks))]
    public void The_examples_of_the_page_read_back(string yaml) => AssertReadsBack(Read(yaml));

    [Fact]
    public void The_exams_of_the_tests_read_back()
    {
        AssertReadsBack(TestExams.Registrar);
        AssertReadsBack(TestExams.Awkward);
    }

    [Fact]
    public void Notes_of_several_lines_stay_as_they_are()
    {
        Exam exam = TestExams.Awkward with { };
        string text = ExamFileText.Write(ExamDraft.Of(exam) with { Notes = "Calculators: allowed.\r\n\r\n  - \"basic\" only\t# really" }).Text;
        Assert.Equal("Calculators: allowed.\n\n  - \"basic\" only\t# really", Read(text).Notes);
    }

    [Fact]
    public void Exams_at_random_read_back() => Exams().Sample(
        text =>
        {
            // The generator says in YAML of its own (JSON is YAML) what the reader then accepts; some are refused, for names used twice.
            if (ExamFile.Parse("generated", text).Value is not { } exam)
            {
                return true;
            }

            string written = ExamFileText.Write(exam);
            ReadResult<Exam> again = ExamFile.Parse("written", written);
            return again.Value is { } value ? Described(value) == Described(exam) : throw new InvalidOperationException(string.Join('\n', again.Problems) + "\n" + written);
        },
        iter: 2000);

    [Fact]
    public void Most_exams_at_random_can_be_read()
    {
        int good = 0;
        Exams().Sample(text => _ = ExamFile.Parse("generated", text).IsOk ? Interlocked.Increment(ref good) : 0, iter: 500);
        Assert.True(good > 300, $"{good.ToString(CultureInfo.InvariantCulture)} of 500");
    }

    [Fact]
    public void A_written_file_is_as_a_person_would_write_it()
    {
        string text = ExamFileText.Write(ExamFile.Read(TestFiles.Demo("exam.yaml")).Value!);
        Assert.StartsWith("exam: Certificate for Registrars of Small Museums\nedition: 2026\nsource:\n  title: Candidate handbook, Guild of Small-Museum Registrars\n  date: 2026-02-01\n", text, StringComparison.Ordinal);
        Assert.Contains("\n  - name: Care of collections\n    scored-items: 75\n    unscored-items: 10\n    minutes: 105\n    options: 4\n    pass:\n      percent: 65\n    topics:\n      - name: Cataloguing\n        weight: 30 %\n        subtopics:\n          - name: Object numbers and marking\n            weight: 30 %\n", text, StringComparison.Ordinal);
    }

    private static Exam Read(string text)
    {
        ReadResult<Exam> read = ExamFile.Parse("exam.yaml", text);
        Assert.True(read.IsOk, string.Join('\n', read.Problems));
        return read.Value;
    }

    private static void AssertReadsBack(Exam exam) => Assert.Equal(Described(exam), Described(Read(ExamFileText.Write(exam))));

    private static string Described(Exam exam) => JsonSerializer.Serialize(new
    {
        exam.Name,
        exam.Edition,
        Source = exam.Source?.ToString(),
        exam.Rule,
        Total = Described(exam.TotalCut),
        Retake = exam.Retake?.ToString(),
        exam.Bands,
        exam.Notes,
        Sections = exam.Sections.Select(s => new { s.Name, s.ScoredItems, s.UnscoredItems, s.Minutes, s.Options, Cut = Described(s.Cut), s.Topics }),
    });

    private static string? Described(CutScore? cut) => cut is ScaledTableCut table
        ? string.Create(CultureInfo.InvariantCulture, $"{table.AtLeast:R}: {string.Join("; ", table.Table.Select(r => string.Create(CultureInfo.InvariantCulture, $"{r.Correct} {r.Scaled:R}")))}")
        : cut?.ToString();

    private static Gen<string> Exams() =>
        from name in Names
        from edition in Names
        from sections in Sections().Array[1, 3]
        from rule in Gen.Int[0, 2]
        from total in Cut(1)
        from wait in Gen.Int[-1, 3650]
        from limit in Gen.Int[0, 365]
        from weak in Gen.Int[10, 989]
        from strong in Gen.Int[1, 500]
        from notes in Names
        from dated in Gen.Int[0, 100_000]
        from title in Names
        select JsonSerializer.Serialize(new Dictionary<string, object?>
        {
            ["exam"] = name,
            ["edition"] = edition,
            ["notes"] = notes,
            ["source"] = dated % 3 == 0 ? null : new Dictionary<string, object> { ["title"] = title, ["date"] = new LocalDate(1900, 1, 1).PlusDays(dated).ToString("uuuu-MM-dd", CultureInfo.InvariantCulture) },
            ["rule"] = rule switch { 0 => "every section", 1 => "total", _ => "total with section minimums" },
            ["total"] = rule == 0 ? null : total,
            ["retake"] = wait < 0 ? null : limit == 0 ? new Dictionary<string, object> { ["waiting-days"] = wait } : new Dictionary<string, object> { ["waiting-days"] = wait, ["attempts-per-year"] = limit },
            ["bands"] = strong + weak > 990 ? null : new Dictionary<string, object> { ["weak-below"] = weak / 10.0, ["strong-from"] = (weak + strong) / 10.0 },
            ["sections"] = sections.Select(s => rule == 1 ? s.Where(e => e.Key != "pass").ToDictionary() : s).ToArray(),
        }.Where(e => e.Value is not null).ToDictionary());

    private static Gen<Dictionary<string, object>> Sections() =>
        from name in Names
        from topics in Gen.Select(Names, Gen.Int[1, 40], Subtopics()).Array[1, 6]
        from percent in Gen.Bool
        from unscored in Gen.Int[0, 20]
        from minutes in Gen.Int[0, 1440]
        from options in Pick("none", "2", "4", "20")
        from cut in Cut(1)
        select new Dictionary<string, object>
        {
            ["name"] = name,
            ["scored-items"] = topics.Sum(t => t.Item2),
            ["unscored-items"] = unscored,
            ["options"] = options,
            ["pass"] = cut,
            ["topics"] = topics.Select(t => new Dictionary<string, object>
            {
                ["name"] = t.Item1,
                ["weight"] = percent ? Percent(t.Item2, topics.Sum(o => o.Item2)) : $"{t.Item2.ToString(CultureInfo.InvariantCulture)} items",
                ["subtopics"] = t.Item3,
            }.Where(e => e.Value is not object[] { Length: 0 }).ToDictionary()).ToArray(),
        }.Append(new("minutes", minutes)).Where(e => e is not { Key: "minutes", Value: 0 }).ToDictionary();

    private static string Percent(int part, int whole) => (100.0 * part / whole).ToString("0.######", CultureInfo.InvariantCulture) + " %";

    private static Gen<object[]> Subtopics() =>
        from names in Names.Array[0, 3]
        from weighted in Gen.Bool
        from weight in PercentWeights
        select names.Select((n, i) => (object)(weighted && names.Length == 2
            ? new Dictionary<string, string> { ["name"] = n, ["weight"] = i == 0 ? Text(weight) : Text(Weight.PercentRange(100 - weight.High, 100 - weight.Low)) }
            : new Dictionary<string, string> { ["name"] = n })).ToArray();

    private static string Text(Weight weight) => string.Create(CultureInfo.InvariantCulture, $"{weight.Low:0.#}-{weight.High:0.#} %");

    private static Gen<object> Cut(int least) =>
        from kind in Gen.Int[0, 3]
        from percent in Gen.Int[10, 1000]
        from low in Scaled
        from steps in Gen.Int[1, 5000].Array[2, 5]
        select kind switch
        {
            0 => (object)new Dictionary<string, object> { ["correct"] = least },
            1 => new Dictionary<string, object> { ["percent"] = percent / 10.0 },
            2 => new Dictionary<string, object> { ["scaled"] = new Dictionary<string, object> { ["at-least"] = Rounded(low + steps[0]), ["at-zero"] = low, ["at-all"] = Rounded(low + steps[0] + steps[1]) } },
            _ => new Dictionary<string, object> { ["scaled"] = new Dictionary<string, object> { ["at-least"] = Rounded(low + 1), ["table"] = new double[][] { [0, low], [1, Rounded(low + 1)] } } },
        };

    private static Gen<T> Pick<T>(params T[] values) => Gen.Int[0, values.Length - 1].Select(i => values[i]);

    private static double Rounded(double value) => Math.Round(value, 6);

    [GeneratedRegex("```yaml\n(exam:.*?)```", RegexOptions.Singleline)]
    private static partial Regex YamlBlock();
}
