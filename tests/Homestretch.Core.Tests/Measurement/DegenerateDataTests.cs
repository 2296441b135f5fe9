using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Whatever the data: a finite figure or a sentence that says why not.</summary>
public class DegenerateDataTests
{
    private static readonly Exam _exam = SampleExams.Of(
        OverallRule.EverySection,
        null,
        SampleExams.Section("First", new PercentCut(65), 4, SampleExams.Topic("A", 20), SampleExams.Topic("B", 10)),
        SampleExams.Section("Second", new PercentCut(60), 4, SampleExams.Topic("C", 20), SampleExams.Topic("D", 0)));

    private static readonly Gen<ItemScores> _anything =
        from persons in Gen.OneOf(Gen.Int[0, 4], Gen.Int[5, 40])
        from items in Gen.OneOf(Gen.Int[1, 3], Gen.Int[4, 20])
        from missing in Gen.Int[0, 5].Select(i => new[] { 0, 0, 10, 50, 95, 100 }[i])
        from easy in Gen.Int[0, 4].Select(i => new[] { 0, 5, 50, 95, 100 }[i])
        from cells in Gen.Select(Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int[0, 19], Gen.Double[-3, 9]).Array[persons * items]
        from constant in Gen.Int[-1, items - 1]
        select Build(persons, items, missing, easy, cells, constant);

    [Fact]
    public void Every_figure_is_finite_or_refused_in_words()
        => _anything.Sample(Check, iter: 400);

    public static TheoryData<string[]> Named => new(
        ["1111", "1111", "1111", "1111", "1111", "1111", "1111", "1111", "1111", "1111", "1111", "1111"],
        ["0000", "0000", "0000", "0000", "0000", "0000", "0000", "0000", "0000", "0000", "0000", "0000"],
        ["1010"],
        ["1", "0", "1"],
        ["1"],
        ["1100", "1100", "1100", "1100", "1100", "1100", "1100", "1100", "1100", "1100", "1100", "1100"],
        ["1...", ".0..", "..1.", "...0", "1...", ".1..", "..0.", "...1"],
        ["....", "....", "...."],
        ["nnnn", "nnnn"],
        ["oooo", "ooo1"]);

    [Theory]
    [MemberData(nameof(Named))]
    public void Odd_cohorts(string[] lines) => Check(Answers.FromLines(lines, i => i % 2 == 0 ? "A" : "C"));

    [Theory]
    [InlineData("All have the same score.", "1111", "1111", "1111")]
    [InlineData("All have the same score.", "0000", "0000")]
    [InlineData("One person's answers cannot show how far people differ.", "1010")]
    [InlineData("One item has no reliability of its own.", "1", "0", "1")]
    [InlineData("Some pairs of items have only 0 people in common; at least 5 are needed.", "1...", ".0..", "..1.", "...0")]
    public void Alpha_is_refused_in_plain_words(string why, params string[] lines)
        => Assert.Equal(why, Reliability.Of(Answers.FromLines(lines)).Alpha.Refusal);

    private static void Check(ItemScores scores)
    {
        TestReview review = TestReviewer.Review(_exam, scores, []);
        Assert.NotEmpty(review.Findings);
        Assert.Equal(scores.Items.Length, review.Items.Length);
        Finite(review, 0);
        foreach (PersonAnswers person in scores.Persons.Take(3))
        {
            double[] seconds = [.. person.Answers.Select(a => a.Seconds).OfType<double>()];
            Finite(Pace.Of(seconds, 30, 40), 0);
        }

        Assert.All(review.Findings, f => Assert.DoesNotContain("NaN", f, StringComparison.Ordinal));
        Assert.All(review.Items, i =>
        {
            InRange(i.Difficulty, 0, 1);
            InRange(i.Discrimination, -1, 1);
            InRange(i.UpperLower, -1, 1);
            Assert.Equal(i.Given, i.Answered + i.Omitted + i.NotReached);
        });
        foreach (PartReliability part in review.Sections.Append(review.Whole).Concat(review.Topics))
        {
            Assert.True(part.Reliability.Alpha.Value is null or <= 1 + 1e-9);
            if (part.Classification is { } c)
            {
                InRange(c.Accuracy, 0, 1);
                InRange(c.Consistency, 0, 1);
                InRange(c.HuynhConsistency, 0, 1);
                Assert.True(c.Kappa.Value is null or <= 1 + 1e-9);
            }
        }

        Assert.All(review.Dimensions.Topics, t =>
        {
            InRange(t.FromOwn, 0, 1);
            InRange(t.FromTotal, 0, 1);
            InRange(t.FromBoth, 0, 1);
        });
    }

    private static void InRange(Statistic statistic, double low, double high)
    {
        if (statistic.Value is { } value)
        {
            Assert.InRange(value, low - 1e-9, high + 1e-9);
        }
    }

    // Walks every number in the report.
    private static void Finite(object? value, int depth)
    {
        Assert.True(depth < 12);
        switch (value)
        {
            case null or string or bool or int or Enum or Exam:
                return;
            case double d:
                Assert.True(double.IsFinite(d));
                return;
            case System.Collections.IEnumerable many:
                foreach (object? one in many)
                {
                    Finite(one, depth + 1);
                }

                return;
            default:
                string? space = value.GetType().Namespace;
                if (space is not null && space.StartsWith("Homestretch.Core.Measurement", StringComparison.Ordinal) && value is not ItemScores)
                {
                    foreach (System.Reflection.PropertyInfo property in value.GetType().GetProperties().Where(p => p.GetIndexParameters().Length == 0))
                    {
                        Finite(property.GetValue(value), depth + 1);
                    }
                }

                return;
        }
    }

    private static ItemScores Build(int persons, int items, int missing, int easy, (int Lost, int Skill, int Blank, double Log)[] cells, int constant)
    {
        string[] topics = ["A", "B", "C"];
        ImmutableArray<PersonAnswers>.Builder rows = ImmutableArray.CreateBuilder<PersonAnswers>();
        for (int p = 0; p < persons; p++)
        {
            ItemAnswer[] row = new ItemAnswer[items];
            for (int i = 0; i < items; i++)
            {
                (int lost, int skill, int blank, double log) = cells[(p * items) + i];
                ItemScore score = lost < missing ? ItemScore.NotGiven
                    : blank == 0 ? ItemScore.Omitted
                    : blank == 1 ? ItemScore.NotReached
                    : skill < easy || i == constant ? ItemScore.Right : ItemScore.Wrong;
                bool answered = score is ItemScore.Right or ItemScore.Wrong;
                row[i] = new ItemAnswer(
                    score,
                    answered && skill % 3 > 0 ? (score == ItemScore.Right ? "A" : "BCD"[skill % 3].ToString()) : null,
                    answered && blank % 2 == 0 ? Math.Exp(log) : null,
                    answered && blank % 3 == 0 ? skill / 99.0 : null);
            }

            rows.Add(new PersonAnswers($"P{p}", [.. row]));
        }

        return new ItemScores([.. Enumerable.Range(0, items).Select(i => new TestItem($"{i}", topics[i % 3], "A", 0.25))], rows.ToImmutable());
    }
}
