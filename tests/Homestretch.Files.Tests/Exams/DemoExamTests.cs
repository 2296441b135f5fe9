using Homestretch.Core.Blueprints;
using Homestretch.Files.Exams;

using NodaTime;

namespace Homestretch.Files.Tests.Exams;

public class DemoExamTests
{
    private static Exam Demo()
    {
        ReadResult<Exam> result = ExamFile.Read(TestFiles.Demo("exam.yaml"));
        Assert.Empty(result.Problems);
        Assert.True(result.IsOk);
        return result.Value;
    }

    [Fact]
    public void Names_edition_and_source_are_read()
    {
        Exam exam = Demo();
        Assert.Equal("Certificate for Registrars of Small Museums", exam.Name);
        Assert.Equal("2026", exam.Edition);
        Assert.Equal(new FigureSource("Candidate handbook, Guild of Small-Museum Registrars", new LocalDate(2026, 2, 1), "printed handbook, pages 6 to 11"), exam.Source);
    }

    [Fact]
    public void Rules_are_read()
    {
        Exam exam = Demo();
        Assert.Equal(OverallRule.EverySection, exam.Rule);
        Assert.Equal(new RetakeRule(45, 3), exam.Retake);
        Assert.Equal([new PercentCut(65), new PercentCut(62)], exam.Sections.Select(s => s.Cut));

        // By hand: 65 % of 75 is 48.75, 62 % of 55 is 34.1; both rounded up.
        Assert.Equal([49, 35], exam.Sections.Select(s => s.Cut!.RequiredCorrect(s.ScoredItems)));
        Assert.Equal(BandEdges.Default, exam.Bands);
    }

    [Fact]
    public void Sections_are_read()
    {
        Exam exam = Demo();
        Assert.Equal(["Care of collections", "Documents and law"], exam.Sections.Select(s => s.Name));
        Assert.Equal([75, 55], exam.Sections.Select(s => s.ScoredItems));
        Assert.Equal([10, 5], exam.Sections.Select(s => s.UnscoredItems));
        Assert.Equal([105, 80], exam.Sections.Select(s => s.Minutes));
        Assert.Equal([4, 4], exam.Sections.Select(s => s.Options));
    }

    [Fact]
    public void Items_are_shared_out_by_largest_remainder()
    {
        Exam exam = Demo();

        // By hand: 75 items as 22.5, 21, 18, 13.5; the tie goes to the heavier topic.
        // 55 items as 37.5, 27.5, 20 and 15 %: 20.625, 15.125, 11, 8.25.
        Assert.Equal([23, 21, 18, 13, 21, 15, 11, 8], exam.Topics.Select(t => t.Items));
    }

    [Fact]
    public void Subtopics_share_out_their_topics_items()
    {
        Exam exam = Demo();
        Assert.All(exam.Topics, t => Assert.Equal(t.Items, t.Topic.Subtopics.Sum(s => s.Items)));
        Assert.All(exam.Topics, t => Assert.InRange(t.Topic.Subtopics.Length, 2, 4));

        // By hand: 23 items as 6.9, 9.2, 6.9.
        Assert.Equal([7, 9, 7], exam.Topics[0].Topic.Subtopics.Select(s => s.Items));

        // No weights: 13 items in equal shares; the tie goes to the earlier.
        Assert.Equal([7, 6], exam.Topics[3].Topic.Subtopics.Select(s => s.Items));
        Assert.All(exam.Topics[3].Topic.Subtopics, s => Assert.Null(s.Weight));
    }

    [Fact]
    public void Published_weights_are_kept()
    {
        Exam exam = Demo();
        Assert.Equal(Weight.Percent(30), exam.Topics[0].Topic.Weight);
        Assert.Equal(Weight.PercentRange(35, 40), exam.Topics[4].Topic.Weight);
    }
}
