using Homestretch.Core.Blueprints;
using Homestretch.Web.Assuming;

namespace Homestretch.Web.Tests;

/// <summary>Which cut scores can be changed under each rule, and in which unit. Expected counts are worked out by hand.</summary>
public sealed class CutPlaceTests
{
    [Fact]
    public void Under_every_section_each_section_has_its_field()
    {
        Exam exam = Make(OverallRule.EverySection, new PercentCut(65), new CorrectCut(11), null);

        Assert.Equal(["cut-1", "cut-2"], CutPlace.In(exam).Select(p => p.Field));
    }

    [Fact]
    public void Under_a_total_only_the_total_has_one_even_where_sections_have_cut_scores()
    {
        Exam exam = Make(OverallRule.Total, new PercentCut(65), null, new CorrectCut(30));

        CutPlace place = Assert.Single(CutPlace.In(exam));
        Assert.Equal(("cut", 60), (place.Field, place.Items));
    }

    [Fact]
    public void Under_a_total_with_minimums_the_sections_with_one_come_before_the_total()
    {
        Exam exam = Make(OverallRule.TotalWithSectionMinimums, null, new PercentCut(50), new PercentCut(70));

        Assert.Equal(["cut-2", "cut"], CutPlace.In(exam).Select(p => p.Field));
    }

    [Fact]
    public void Changing_one_cut_score_changes_nothing_else()
    {
        Exam exam = Make(OverallRule.TotalWithSectionMinimums, new PercentCut(60), new PercentCut(50), new PercentCut(70));
        CutPlace first = CutPlace.In(exam)[0];

        Exam changed = first.Change(exam, CutFigure.With(first.Cut, 75));

        Assert.Equal(new PercentCut(75), changed.Sections[0].Cut);
        Assert.Equal(exam.Sections[1], changed.Sections[1]);
        Assert.Equal(exam.TotalCut, changed.TotalCut);
        Assert.Equal(30, changed.Sections[0].Cut!.RequiredCorrect(40)); // 75 % of 40
        Assert.Equal(exam.Topics.Select(t => (t.Name, t.Items)), changed.Topics.Select(t => (t.Name, t.Items)));
    }

    [Fact]
    public void Every_kind_of_cut_score_keeps_its_kind_and_its_unit()
    {
        CutScore[] cuts =
        [
            new CorrectCut(30),
            new PercentCut(62.5),
            new ScaledLineCut(300, 100, 500),
            new ScaledTableCut(300, [new(0, 100), new(20, 250), new(30, 300), new(40, 500)]),
        ];
        Assert.Equal(["30", "62.5", "300", "300"], cuts.Select(c => CutFigure.Of(c, 40).Text));
        Assert.Equal(["correct answers", "% of items", "scaled score", "scaled score"], cuts.Select(c => CutFigure.Of(c, 40).Unit));

        // On a straight line from 100 to 500 over 40 items a score of 400 is 30 items; by the table it takes all 40.
        Assert.Equal(30, CutFigure.With(cuts[2], 400).RequiredCorrect(40));
        Assert.Equal(40, CutFigure.With(cuts[3], 400).RequiredCorrect(40));
        Assert.Equal("a whole number from 1 to 40", CutFigure.Of(cuts[0], 40).Accepted);
        Assert.Equal("a number from 100 to 500", CutFigure.Of(cuts[2], 40).Accepted);
    }

    private static Exam Make(OverallRule rule, CutScore? first, CutScore? second, CutScore? total) => new(
        "Exam",
        null,
        null,
        [
            new Section("One", 40, 0, null, 4, first, [new Topic("A", Weight.Items(40), 40, [])]),
            new Section("Two", 20, 0, null, 4, second, [new Topic("B", Weight.Items(20), 20, [])]),
        ],
        rule,
        total,
        null,
        BandEdges.Default);
}
