using System.Collections.Immutable;

using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>By hand, and on cohorts with known faults.</summary>
public class ItemAnalysisTests
{
    [Fact]
    public void Not_reached_items_leave_difficulty_alone_and_omitted_ones_count_as_wrong()
    {
        ItemReport report = ItemAnalysis.Analyse(Answers.FromLines("11", "10", "1o", "1n"))[1];
        Assert.Equal((4, 2, 1, 1, 1), (report.Given, report.Answered, report.Omitted, report.NotReached, report.Right));
        Assert.Equal(1.0 / 3, report.Difficulty.Value!.Value, 1e-12);
    }

    [Fact]
    public void Upper_and_lower_groups_of_27_percent_share_ties_in_part()
    {
        // 12 people, groups of 3.24. Seven answer the other item, six of them the first too; of the five others two answer the first.
        ItemReport report = ItemAnalysis.Analyse(Answers.FromLines("11", "11", "11", "01", "10", "00", "00", "00", "11", "11", "11", "10"))[0];
        Assert.Equal((6.0 / 7) - (2.0 / 5), report.UpperLower.Value!.Value, 1e-12);
    }

    [Fact]
    public void A_wrong_key_is_found_and_the_option_named()
    {
        ItemReport report = Flagged(p => p >= 20 ? "B" : p % 3 == 0 ? "A" : "C", key: "A");
        Assert.Contains(ItemConcern.ProbablyMiskeyed, report.Concerns);
        Assert.Contains("choose B, not the key A", report.Remarks[0], StringComparison.Ordinal);
        OptionReport b = report.Options.Single(o => o.Option == "B");
        Assert.Equal((20, 0.5, false), (b.Count, b.Share, b.IsKey));
        Assert.Equal(1, b.UpperShare.Value);
    }

    [Fact]
    public void A_good_item_has_no_concern()
        => Assert.Empty(Flagged(p => p >= 15 ? "A" : "BC"[p % 2].ToString(), key: "A").Concerns);

    [Fact]
    public void An_item_that_all_answer_is_too_easy_and_nothing_else()
        => Assert.Equal([ItemConcern.TooEasy], Flagged(_ => "A", key: "A").Concerns);

    [Fact]
    public void An_item_that_nobody_answers_is_too_hard()
        => Assert.Equal([ItemConcern.TooHard], Flagged(_ => "B", key: "A").Concerns);

    [Fact]
    public void Few_people_raise_no_concern_but_say_so()
    {
        ItemReport report = ItemAnalysis.Analyse(Answers.FromLines("11", "10", "00"))[0];
        Assert.Empty(report.Concerns);
        Assert.Equal("Seen by 3 people: too few to judge the item.", Assert.Single(report.Remarks));
    }

    // Forty people, the later ones better on ten other items, and one item whose option each chooses.
    private static ItemReport Flagged(Func<int, string> choose, string key)
    {
        ImmutableArray<PersonAnswers> persons =
        [
            .. Enumerable.Range(0, 40).Select(p => new PersonAnswers($"P{p}",
            [
                new ItemAnswer(choose(p) == key ? ItemScore.Right : ItemScore.Wrong, choose(p)),
                .. Enumerable.Range(0, 10).Select(i => new ItemAnswer(p >= i * 4 ? ItemScore.Right : ItemScore.Wrong)),
            ])),
        ];
        ItemScores scores = new([new TestItem("x", "T", key, 0.25), .. Enumerable.Range(0, 10).Select(i => new TestItem($"{i}", "T", null, 0.25))], persons);
        return ItemAnalysis.Analyse(scores)[0];
    }
}
