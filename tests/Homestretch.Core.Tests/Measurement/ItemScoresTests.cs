using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

public class ItemScoresTests
{
    private static readonly Exam _exam = SampleExams.Of(
        OverallRule.EverySection,
        null,
        SampleExams.Section("First", new PercentCut(65), 4, SampleExams.Topic("A", 10)),
        SampleExams.Section("Second", new PercentCut(65), 5, SampleExams.Topic("B", 10)));

    [Fact]
    public void Blanks_before_an_answer_are_omitted_and_blanks_at_the_end_not_reached()
        => Assert.Equal("right omitted wrong notreached notreached", Row(("A", "1", '+'), ("A", "2", ' '), ("A", "3", '-'), ("A", "4", ' '), ("A", "5", ' ')));

    [Fact]
    public void Sections_that_stand_together_have_ends_of_their_own()
        => Assert.Equal("right notreached right notreached", Row(("A", "1", '+'), ("A", "2", ' '), ("B", "3", '+'), ("B", "4", ' ')));

    [Fact]
    public void Mixed_sections_share_one_end()
        => Assert.Equal("right omitted right omitted wrong notreached", Row(("A", "1", '+'), ("B", "2", ' '), ("A", "3", '+'), ("A", "4", ' '), ("B", "5", '-'), ("A", "6", ' ')));

    [Fact]
    public void An_item_that_a_persons_test_did_not_hold_is_not_given()
    {
        ItemScores scores = ItemScores.FromAttempts(_exam, [Sitting("P", ("A", "1", '+'), ("A", "3", '+')), Sitting("Q", ("A", "1", '-'), ("A", "2", '+'), ("A", "3", '-'))])!;
        Assert.Equal(["1", "2", "3"], scores.Items.Select(i => i.Label));
        Assert.Equal(ItemScore.NotGiven, scores[0, 1].Score);
        Assert.False(scores.Complete);
        Assert.Equal([0.25, 0.25, 0.25], scores.Items.Select(i => i.GuessChance));
    }

    [Fact]
    public void The_first_of_two_sittings_counts()
    {
        Attempt first = Sitting("P", ("A", "1", '-'));
        ItemScores scores = ItemScores.FromAttempts(_exam, [Sitting("P", ("A", "1", '+')) with { Date = first.Date.PlusDays(7) }, first])!;
        Assert.Equal(ItemScore.Wrong, Assert.Single(scores.Persons).Answers[0].Score);
    }

    [Fact]
    public void Counts_by_topic_alone_give_no_test()
        => Assert.Null(ItemScores.FromAttempts(_exam, SampleExams.Diagnostic(("A", 3, 5))));

    private static string Row(params (string Topic, string Item, char Mark)[] rows)
        => string.Join(' ', ItemScores.FromAttempts(_exam, [Sitting("P", rows)])!.Persons[0].Answers.Select(a => a.Score.ToString().ToLowerInvariant()));

    private static Attempt Sitting(string person, params (string Topic, string Item, char Mark)[] rows) => new(
        person,
        "d",
        AttemptKind.Diagnostic,
        SampleExams.Today,
        [.. rows.Select(r => (Observation)new ItemResponse(r.Topic, null, r.Item, r.Mark == '+', null, null) { Omitted = r.Mark == ' ' })]);
}
