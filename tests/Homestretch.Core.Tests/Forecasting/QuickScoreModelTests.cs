using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Properties;

namespace Homestretch.Core.Tests.Forecasting;

/// <summary>The quick model against the exact one.</summary>
public sealed class QuickScoreModelTests
{
    private static readonly Gen<((Exam Exam, ImmutableArray<(string Topic, int Correct, int Items)> Counts) Case, double[] Effort, double[] Other)> _cases =
        Gen.Select(Generators.Cases, Gen.Double[0, 4].Array[15], Gen.Double[0.1, 4].Array[15]).Select((c, e, o) => (c, e[..c.Exam.Topics.Length], o[..c.Exam.Topics.Length]));

    /// <summary>Pass chances are good to a point where every section has 20 items, to two points from 10 items (observed in 8000 cases: 0.7 and 1.3).</summary>
    [Fact]
    public void Pass_chances_are_near_the_exact_ones()
        => _cases.Sample(
            c =>
            {
                (QuickScoreModel quick, ScoreModel exact) = Models(c.Case);
                quick.Set(c.Effort);
                int fewest = c.Case.Exam.Sections.Min(s => s.ScoredItems);
                double limit = fewest >= 20 ? 0.01 : fewest >= 10 ? 0.02 : 0.1;
                Assert.Equal(exact.PassChance(c.Effort), quick.Score.Pass, limit);
                Assert.Equal(exact.Outcome(c.Effort).ExpectedCorrect, quick.Score.Correct, 0.01 * c.Case.Exam.ScoredItems);
            },
            iter: 400);

    /// <summary>Above all, of two plans it must know the better one.</summary>
    [Fact]
    public void Of_two_plans_that_differ_by_a_point_it_knows_the_better()
        => _cases.Sample(
            c =>
            {
                if (c.Case.Exam.Sections.Any(s => s.ScoredItems < 10))
                {
                    return;
                }

                (QuickScoreModel quick, ScoreModel exact) = Models(c.Case);

                // Plans of the same length, as a search compares them.
                double scale = c.Effort.Sum() / c.Other.Sum();
                double[] other = [.. c.Other.Select(o => o * scale)];
                double difference = exact.PassChance(c.Effort) - exact.PassChance(other);
                quick.Set(c.Effort);
                double before = quick.Score.Pass;
                quick.Set(other);
                Assert.True(Math.Abs(difference) < 0.01 || Math.Sign(before - quick.Score.Pass) == Math.Sign(difference), $"{difference}: {before} and {quick.Score.Pass}");
            },
            iter: 400);

    [Fact]
    public void A_change_tried_or_made_is_what_setting_all_efforts_anew_says()
        => Gen.Select(_cases, Gen.Int[0, 100], Gen.Int[0, 100]).Sample(
            (c, one, two) =>
            {
                QuickScoreModel quick = Models(c.Case).Quick;
                int first = one % c.Effort.Length;
                int second = two % c.Effort.Length;
                double[] after = [.. c.Effort];
                after[first] = c.Other[first];
                after[second] = c.Other[second];
                quick.Set(after);
                QuickScore whole = quick.Score;

                quick.Set(c.Effort);
                QuickScore tried = first == second ? quick.Try(first, after[first]) : quick.Try(first, after[first], second, after[second]);
                quick.Move(first, after[first]);
                quick.Move(second, after[second]);
                Assert.Equal(whole.Pass, tried.Pass, 1e-10);
                Assert.Equal(whole.Correct, tried.Correct, 1e-10);
                Assert.Equal(whole.Pass, quick.Score.Pass, 1e-10);
            },
            iter: 300);

    [Fact]
    public void Slopes_are_the_rise_of_a_small_change()
        => _cases.Sample(
            c =>
            {
                const double Step = 1e-4;
                QuickScoreModel quick = Models(c.Case).Quick;
                double[] effort = [.. c.Effort.Select(e => e + (2 * Step))];
                quick.Set(effort);
                EffortChange[] slopes = new EffortChange[effort.Length];
                quick.Slopes(slopes);
                for (int t = 0; t < effort.Length; t++)
                {
                    QuickScore more = quick.Try(t, effort[t] + Step);
                    QuickScore less = quick.Try(t, effort[t] - Step);
                    double rise = (more.Pass - less.Pass) / (2 * Step);

                    // Under a total with minimums the fourth cumulants' part is left out of the slopes.
                    double share = c.Case.Exam.Rule == OverallRule.TotalWithSectionMinimums ? 0.15 : 0.001;
                    Assert.Equal(rise, slopes[t].Pass, 2e-4 + (share * rise));
                    Assert.Equal((more.Correct - less.Correct) / (2 * Step), slopes[t].Score, 1e-3);
                }
            },
            iter: 200);

    [Fact]
    public void A_person_who_has_studied_is_taken_up_where_they_are()
    {
        Exam exam = SampleExams.Large();
        StudyHistory study = new(exam, [.. exam.Topics.Take(5).Select((t, i) => new StudySession("Someone", t.Name, SampleExams.Today.PlusDays(2 + i), 120, StudyKind.Teaching))]);
        ImmutableArray<Attempt> evidence =
        [
            .. SampleExams.HalfLength(exam, 0.6, 0.7, 0.5),
            new Attempt("Someone", "quiz", AttemptKind.Quiz, SampleExams.Today.PlusDays(8), [TopicCount.Exact(exam.Topics[0].Name, 8, 10), TopicCount.Exact(exam.Topics[1].Name, 7, 10)]),
        ];
        CandidateStanding standing = StandingCalculator.Calculate(exam, evidence, SampleExams.Today.PlusDays(8), study: study);
        ScoreModel exact = new(standing);
        QuickScoreModel quick = new(exam);
        quick.Load(standing.Posterior, exact.EffortNow);
        quick.Set(exact.EffortNow);
        Assert.True(standing.Posterior.RateGroups.Length > 1);
        Assert.Equal(exact.PassChance(exact.EffortNow), quick.Score.Pass, 0.005);

        double[] later = [.. exact.EffortNow.Select((e, t) => (0.8 * e) + (t % 3))];
        quick.Set(later);
        Assert.Equal(exact.PassChance(later), quick.Score.Pass, 0.005);
    }

    private static (QuickScoreModel Quick, ScoreModel Exact) Models((Exam Exam, ImmutableArray<(string Topic, int Correct, int Items)> Counts) c)
    {
        AbilityPosterior posterior = StandingCalculator.PosteriorOf(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today, StandingAssumptions.Default);
        QuickScoreModel quick = new(c.Exam);
        quick.Load(posterior);
        quick.Set(new double[c.Exam.Topics.Length]);
        return (quick, new ScoreModel(c.Exam, posterior));
    }
}
