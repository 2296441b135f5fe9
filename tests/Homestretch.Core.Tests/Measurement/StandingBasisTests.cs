using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Tests.Measurement;

public class StandingBasisTests
{
    private static readonly Exam Small = SampleExams.OneSection(new PercentCut(60), SampleExams.Topic("A", 10), SampleExams.Topic("B", 20), SampleExams.Topic("C", 10));

    [Fact]
    public void Without_a_cohort_the_defaults_are_in_force_and_a_cohort_is_asked_for()
    {
        StandingBasis basis = StandingBasis.Of(Small, SampleExams.Diagnostic(("A", 3, 5)));
        Assert.Same(StandingAssumptions.Default, basis.Assumptions);
        Assert.Null(basis.Prior);
        Assert.Equal(0, basis.People);
        Assert.StartsWith("The usual assumptions are in use.", basis.Reason, StringComparison.Ordinal);
        Assert.Contains("30", basis.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cohort_too_small_says_how_many_are_missing()
    {
        StandingBasis basis = StandingBasis.Of(Small, Room(22, 1));
        Assert.Null(basis.Prior);
        Assert.Equal(22, basis.People);
        Assert.Contains("22 people took 'room test'", basis.Reason, StringComparison.Ordinal);
        Assert.Contains("so 8 are missing", basis.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Thirty_people_replace_the_defaults_and_it_is_said()
    {
        StandingBasis basis = StandingBasis.Of(Small, Room(30, 2));
        Assert.NotNull(basis.Prior);
        Assert.Equal(30, basis.Prior.Persons);
        Assert.Equal("room test", basis.Assumptions.LearnedOn);
        Assert.Equal(basis.Prior.AbilitySd.Value, basis.Assumptions.AbilitySd);
        Assert.Equal(basis.Prior.TopicSd.Value, basis.Assumptions.TopicSd);
        Assert.Equal(0, basis.Assumptions.TopicFormSd);
        Assert.True(basis.Assumptions.ItemSpread > 0);
        Assert.StartsWith("Learned from the 30 people who took 'room test', in place of the usual assumptions", basis.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_room_whose_test_is_easier_than_the_exam_is_expected_lower_on_the_exam()
    {
        ImmutableArray<Attempt> room = [.. Room(40, 4)];
        ImmutableArray<Attempt> easier = [.. room.Select(a => a with { Form = new FormDifference(0.3, 0.05) })];
        StandingBasis plain = StandingBasis.Of(Small, room);
        StandingBasis moved = StandingBasis.Of(Small, easier);
        Assert.Equal(plain.Assumptions.MeanAbility - 0.3, moved.Assumptions.MeanAbility, 1e-12);

        // Prior and answers are of the same items: the exam is so much harder, and nothing else has changed.
        CandidateStanding before = plain.Standing(room[..1], SampleExams.Today);
        CandidateStanding after = moved.Standing(easier[..1], SampleExams.Today);
        Assert.Equal(before.Posterior.MeanAbility - 0.3, after.Posterior.MeanAbility, 1e-9);
        Assert.Equal(0.05, after.Posterior.FormSd, 1e-12);
    }

    // Two and a half standard errors, four comparisons.
    [Fact]
    public void Learned_figures_are_those_the_room_was_drawn_with()
    {
        CohortPrior prior = StandingBasis.Of(Small, Room(600, 3, guessing: true)).Prior!;
        Assert.InRange(prior.MeanAbility.Value, 0.5 - (2.5 * prior.MeanAbility.StandardError), 0.5 + (2.5 * prior.MeanAbility.StandardError));
        Assert.InRange(prior.MeanAbility.StandardError, 1 / Math.Sqrt(600), 0.1);
        Assert.InRange(prior.AbilitySd.Value, 1 - (2.5 * prior.AbilitySd.StandardError), 1 + (2.5 * prior.AbilitySd.StandardError));
        Assert.InRange(prior.TopicSd.Value, 0.4 - (2.5 * prior.TopicSd.StandardError), 0.4 + (2.5 * prior.TopicSd.StandardError));
    }

    [Fact]
    public void Counts_teach_as_answers_do_but_not_the_spread_of_items()
    {
        ImmutableArray<Attempt> answers = Room(60, 4);
        ImmutableArray<Attempt> counts = [.. answers.Select(a => a with
        {
            Observations = [.. a.Observations.Cast<ItemResponse>().GroupBy(r => r.Topic).Select(t => (Observation)TopicCount.Exact(t.Key, t.Count(r => r.Correct), t.Count()))],
        })];
        CohortPrior byItem = StandingBasis.Of(Small, answers).Prior!;
        StandingBasis byCount = StandingBasis.Of(Small, counts);
        Assert.Equal(byItem.AbilitySd, byCount.Prior!.AbilitySd);
        Assert.Equal(0, byCount.Prior.ItemSpread);
        Assert.Equal(StandingAssumptions.Default.TopicFormSd, byCount.Assumptions.TopicFormSd);
    }

    [Fact]
    public void Bands_teach_nothing_and_a_second_sitting_does_not_count()
    {
        ImmutableArray<Attempt> room = Room(29, 5);
        Attempt again = room[0] with { Date = SampleExams.Today.PlusDays(3) };
        Attempt band = new("Band", "room test", AttemptKind.Official, SampleExams.Today, [new TopicCount("A", null, 2, 4, 6)]);
        Assert.Equal(29, StandingBasis.Of(Small, [.. room, again, band]).People);
    }

    [Fact]
    public void The_test_that_covers_most_topics_is_learned_from()
    {
        ImmutableArray<Attempt> narrow = [.. Room(50, 6).Select(a => a with { Name = "quiz", Observations = [.. a.Observations.Where(o => o.Topic == "A")] })];
        Assert.Equal("room test", StandingBasis.Of(Small, [.. narrow, .. Room(40, 7)]).Prior!.Test);
    }

    [Fact]
    public void A_topic_that_the_test_leaves_out_is_less_sure_on_the_exam()
    {
        ImmutableArray<Attempt> room = [.. Room(60, 8).Select(a => a with { Observations = [.. a.Observations.Where(o => o.Topic != "C")] })];
        StandingBasis basis = StandingBasis.Of(Small, room);
        Assert.DoesNotContain("C", basis.Prior!.TopicMeans.Keys);
        Assert.True(basis.Assumptions.ExamTopicFormSd("C", 10) > basis.Assumptions.ExamTopicFormSd("A", 10));
        TopicStanding[] topics = [.. basis.Standing([room[0]], SampleExams.Today).Topics];
        Assert.True(topics[2].Level.High - topics[2].Level.Low > topics[0].Level.High - topics[0].Level.Low);
    }

    [Fact]
    public void Answers_all_alike_and_sittings_of_two_tests_leave_the_defaults_with_the_reason()
    {
        ImmutableArray<Attempt> room = Room(40, 9);
        ImmutableArray<Attempt> alike = [.. room.Select(a => a with { Observations = [.. a.Observations.Select(o => o is ItemResponse { Topic: "B" } r ? r with { Correct = true } : o)] })];
        StandingBasis right = StandingBasis.Of(Small, alike);
        Assert.Null(right.Prior);
        Assert.Contains("On 'B' all 240 answers of the cohort are alike", right.Reason, StringComparison.Ordinal);

        Attempt odd = room[3] with { Observations = [.. room[3].Observations.Select(o => o is ItemResponse { Item: "A1" } r ? r with { Topic = "B" } : o)] };
        StandingBasis mixed = StandingBasis.Of(Small, room.SetItem(3, odd));
        Assert.Null(mixed.Prior);
        Assert.Contains("item 'A1' is on 'A' for Person 1 and on 'B' for Person 4", mixed.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, "1 of 18 answers counted with their own calibrated items, the others as answers to average items.")]
    [InlineData(0, "None of the 18 answers is to an item of the bank, which holds 1: topic, item and test must be spelt alike in both.")]
    public void What_a_bank_was_good_for_is_said(int known, string sentence)
    {
        ItemBank bank = new([new BankItem("A", known == 1 ? "A1" : "other", ItemModel.Rasch, new ItemCurve(1, 0, 0))]);
        StandingBasis basis = StandingBasis.Of(Small, Room(1, 10), bank);
        Assert.Equal([basis.Reason, sentence], basis.Sentences(basis.Standing(Room(1, 10), SampleExams.Today)));
    }

    // Six items a topic with difficulties half a logit apart; overall ability normal (0.5, 1), topics within 0.4 of it.
    private static ImmutableArray<Attempt> Room(int people, int seed, bool guessing = false)
    {
        Random random = new(seed);
        Normal normal = new(0, 1, random);
        return [.. Enumerable.Range(1, people).Select(p =>
        {
            double overall = 0.5 + normal.Sample();
            return new Attempt($"Person {p}", "room test", AttemptKind.Diagnostic, SampleExams.Today, [.. Small.Topics.SelectMany(t =>
            {
                double ability = overall + (0.4 * normal.Sample());
                return Enumerable.Range(1, 6).Select(i =>
                {
                    double hard = guessing ? 0 : (i - 3.5) / 2;
                    return (Observation)new ItemResponse(t.Name, null, $"{t.Name}{i}", random.NextDouble() < 0.25 + (0.75 / (1 + Math.Exp(-(ability - hard)))), null, null);
                });
            })]);
        })];
    }
}
