using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Exams;

namespace Homestretch.Files.Tests.Exams;

public class ExamFileTests
{
    [Theory]
    [InlineData("18 items", WeightUnit.Items, 18, 18)]
    [InlineData("1 item", WeightUnit.Items, 1, 1)]
    [InlineData("30 %", WeightUnit.Percent, 30, 30)]
    [InlineData("30%", WeightUnit.Percent, 30, 30)]
    [InlineData("12.5 percent", WeightUnit.Percent, 12.5, 12.5)]
    [InlineData("12.5 per cent", WeightUnit.Percent, 12.5, 12.5)]
    [InlineData("25-35 %", WeightUnit.Percent, 25, 35)]
    [InlineData("25 – 35 %", WeightUnit.Percent, 25, 35)]
    [InlineData("25% to 35%", WeightUnit.Percent, 25, 35)]
    [InlineData("0-10 %", WeightUnit.Percent, 0, 10)]
    public void A_weight_is_read_as_it_is_printed(string text, WeightUnit unit, double low, double high)
    {
        Weight? weight = WeightOf(text);
        Assert.Equal(new Weight(unit, low, high), weight);
    }

    // By hand: sums of 99 and 101 are scaled to 100; 40 items as 33/99, 33/99, 33/99 and as 51/101, 50/101.
    [Theory]
    [InlineData("33 %, 33 %, 33 %", 40, "14 13 13")]
    [InlineData("51 %, 50 %", 40, "20 20")]
    [InlineData("33.3 %, 33.3 %, 33.4 %", 100, "33 33 34")]
    [InlineData("14.3 %, 14.3 %, 14.3 %, 14.3 %, 14.3 %, 14.3 %, 14.3 %", 70, "10 10 10 10 10 10 10")]
    public void Rounded_percentages_are_scaled(string weights, int items, string counts) => Assert.Equal(counts, Counts(weights, items));

    // By hand: midpoints 15, 25, 50 sum to 90; 60 items as 10, 16.67, 33.33. Midpoints 20, 50, 40 sum to 110; 110 items as 20, 50, 40.
    [Theory]
    [InlineData("10-20 %, 20-30 %, 40-60 %", 60, "10 17 33")]
    [InlineData("10-30 %, 40-60 %, 30-50 %", 110, "20 50 40")]
    [InlineData("100 %", 7, "7")]
    [InlineData("50-100 %, 0-50 %", 8, "6 2")]
    [InlineData("5 items, 2 items, 1 item", 8, "5 2 1")]
    public void Ranges_count_as_their_midpoints(string weights, int items, string counts) => Assert.Equal(counts, Counts(weights, items));

    [Theory]
    [InlineData("{correct: 26}", 26)]
    [InlineData("{percent: 65}", 26)]
    [InlineData("{percent: 65 %}", 26)]
    [InlineData("{percent: 65.1}", 27)]
    [InlineData("{scaled: {at-least: 500, at-zero: 200, at-all: 800}}", 20)]
    [InlineData("{scaled: {at-least: 500, table: [[0, 200], [19, 480], [22, 500], [40, 800]]}}", 22)]
    [InlineData("{scaled: {at-least: -1.5, table: [[5, -10], [6, -10], [7, -1.5]]}}", 7)]
    public void Every_form_of_a_cut_score_is_read(string cut, int required)
    {
        Exam exam = Read(Text("100 %", 40, cut: cut));
        Assert.Equal(required, exam.Sections[0].Cut!.RequiredCorrect(40));
    }

    [Theory]
    [InlineData("4", 4)]
    [InlineData("2", 2)]
    [InlineData("none", 0)]
    [InlineData("None", 0)]
    [InlineData("0", 0)]
    public void Options_are_read(string text, int options) => Assert.Equal(options, Read(Text("100 %", 40, options: text)).Sections[0].Options);

    [Fact]
    public void A_total_with_section_minimums_is_read()
    {
        Exam exam = Read("rule: total with section minimums\ntotal: {correct: 30}\nbands: {weak-below: 45, strong-from: 70}\nretake: {waiting-days: 0}\n" + Text("100 %", 40));
        Assert.Equal(OverallRule.TotalWithSectionMinimums, exam.Rule);
        Assert.Equal(new CorrectCut(30), exam.TotalCut);
        Assert.Equal(new RetakeRule(0, null), exam.Retake);
        Assert.Equal(new BandEdges(0.45, 0.7), exam.Bands);
    }

    [Fact]
    public void What_is_left_out_stays_unknown()
    {
        Exam exam = Read(Text("100 %", 40));
        Assert.Null(exam.Edition);
        Assert.Null(exam.Source);
        Assert.Null(exam.Retake);
        Assert.Null(exam.TotalCut);
        Assert.Null(exam.Sections[0].Minutes);
        Assert.Equal(0, exam.Sections[0].UnscoredItems);
        Assert.Empty(exam.Topics[0].Topic.Subtopics);
    }

    [Fact]
    public void Names_keep_their_letters_and_lose_stray_spaces()
    {
        Exam exam = Read("exam: '  Prüfung   für\u00a0Registrare  '\n" + Text("100 %", 40)[("exam: Registrar\n".Length)..]);
        Assert.Equal("Prüfung für Registrare", exam.Name);
    }

    [Fact]
    public void Words_that_yaml_takes_for_other_things_stay_words()
    {
        Exam exam = Read(Text("100 %", 40).Replace("Topic 1", "no", StringComparison.Ordinal).Replace("exam: Registrar", "exam: 12:30:45", StringComparison.Ordinal));
        Assert.Equal("no", exam.Topics[0].Name);
        Assert.Equal("12:30:45", exam.Name);
    }

    [Theory]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Line_ends_of_other_systems_are_read(string lineEnd) =>
        Assert.Equal(40, Read(Text("100 %", 40).Replace("\n", lineEnd, StringComparison.Ordinal)).ScoredItems);

    [Fact]
    public void Counts_of_topics_and_subtopics_sum()
    {
        Gen.Select(Gen.Int[1, 40].Array[1, 12], Gen.Int[1, 400], Gen.Int[1, 5], Gen.Bool).Sample((shares, extra, parts, ranges) =>
        {
            int items = (shares.Length * 60) + extra;
            double sum = shares.Sum();
            string[] weights = [.. shares.Select(s => Show(s / sum * 100, ranges))];
            string yaml = Text(string.Join(", ", weights), items, parts: parts);
            ReadResult<Exam> result = ExamFile.Parse("exam.yaml", yaml);

            // A share too small for one item is refused, which is tested elsewhere.
            if (!result.IsOk)
            {
                Assert.All(result.Problems, p => Assert.Contains("comes to none", p.Message, StringComparison.Ordinal));
                return;
            }

            Assert.Equal(items, result.Value.Sections[0].Topics.Sum(t => t.Items));
            Assert.All(result.Value.Topics, t => Assert.Equal(t.Items, t.Topic.Subtopics.Sum(s => s.Items)));
            Assert.All(result.Value.Topics, t => Assert.InRange(t.Topic.Subtopics.Max(s => s.Items) - t.Topic.Subtopics.Min(s => s.Items), 0, 1));
        });
    }

    private static string Show(double percent, bool range)
    {
        string F(double value) => value.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture);
        return range ? $"{F(percent * 0.9)}-{F(Math.Min(100, percent * 1.1))} %" : $"{F(percent)} %";
    }

    private static Weight? WeightOf(string text)
    {
        string rest = text.Contains("items", StringComparison.Ordinal) ? "22 items" : text.Contains("item", StringComparison.Ordinal) ? "39 items" : "0-100 %";
        return Read(Text($"{text}, {rest}", 40)).Topics[0].Topic.Weight;
    }

    private static string Counts(string weights, int items) => string.Join(' ', Read(Text(weights, items)).Topics.Select(t => t.Items));

    private static Exam Read(string yaml)
    {
        ReadResult<Exam> result = ExamFile.Parse("exam.yaml", yaml);
        Assert.Empty(result.Problems);
        return result.Value!;
    }

    private static string Text(string weights, int items, string cut = "{percent: 65}", string options = "4", int parts = 0)
    {
        string subtopics = parts == 0 ? "" : ", subtopics: [" + string.Join(", ", Enumerable.Range(1, parts).Select(i => $"{{name: Part {i}}}")) + "]";
        IEnumerable<string> topics = weights.Split(", ").Select((w, i) => $"      - {{name: Topic {i + 1}, weight: {w}{subtopics}}}\n");
        return $"exam: Registrar\nsections:\n  - name: Care\n    scored-items: {items}\n    options: {options}\n    pass: {cut}\n    topics:\n{string.Concat(topics)}";
    }
}
