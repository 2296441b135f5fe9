using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

using MathNet.Numerics.Distributions;

namespace Homestretch.Core.Tests.Measurement;

public class CohortPriorEstimatorTests
{
    private static readonly ImmutableArray<string> Topics = ["a", "b", "c", "d"];
    private static readonly double[] Means = [0.5, 0, -0.5, 1];

    [Theory]
    [InlineData(0.0, 1)]
    [InlineData(0.0, 2)]
    [InlineData(0.2, 3)]
    public void Finds_the_spreads_a_cohort_was_drawn_with(double guess, int seed)
    {
        CohortPrior prior = CohortPriorEstimator.Estimate(Draw(1500, 8, guess, 1, 0.5, seed));
        Within(1, prior.AbilitySd);
        Within(0.5, prior.TopicSd);
        for (int t = 0; t < Topics.Length; t++)
        {
            Within(Means[t], prior.TopicMeans[Topics[t]]);
        }

        // Three and a half standard errors: eighteen comparisons in all.
        static void Within(double truth, Estimate estimate)
        {
            Assert.InRange(estimate.StandardError, 0.005, 0.1);
            Assert.InRange(truth, estimate.Value - (3.5 * estimate.StandardError), estimate.Value + (3.5 * estimate.StandardError));
        }
    }

    // scipy 1.10: quad of norm.pdf(x, m, s) (c + (1 - c) / (1 + exp(-(x + shift)))), and brentq for the shift with a share of 0.6.
    [Theory]
    [InlineData(0.25, 0.3, 1.2, -0.4, 0.6104365571381024)]
    [InlineData(0.0, 0.0, 1.0, 0.7, 0.6411558811272295)]
    [InlineData(0.125, -0.5, 2.0, 1.5, 0.691760633710135)]
    public void Expected_shares_as_by_integration(double guess, double mean, double sd, double shift, double share)
    {
        ExpectedShare expected = new(guess, mean, sd);
        Assert.Equal(share, expected.At(shift), 1e-6);
        Assert.Equal(shift, expected.ShiftFor(share), 1e-5);
        Assert.Equal((expected.At(shift + 1e-5) - expected.At(shift - 1e-5)) / 2e-5, expected.Slope(shift), 1e-6);
        Assert.Equal(-0.4718083328415966, new ExpectedShare(0.25, 0.3, 1.2).ShiftFor(0.6), 1e-6);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void A_share_of_nothing_or_everything_still_has_a_shift(double share)
        => Assert.InRange(new ExpectedShare(0.25, 0, 1).ShiftFor(share), -12, 12);

    // The exam's items are easier by 0.8 on one topic and harder by 0.5 on another; people and their abilities are the same on both.
    [Theory]
    [InlineData(0.0, 11)]
    [InlineData(0.25, 12)]
    public void How_hard_the_exam_is_shows_in_people_who_sat_it(double guess, int seed)
    {
        double[] shifts = [0.8, -0.5, 0, 0];
        (CohortCounts test, CohortCounts exam) = DrawBoth(1500, 8, guess, shifts, seed);
        StandingAssumptions known = CohortPriorEstimator.Estimate(test).ToAssumptions(StandingAssumptions.Default, test, exam);
        for (int t = 0; t < Topics.Length; t++)
        {
            // Four standard errors, eight comparisons in all; the spread enters the shift of both tests alike.
            double sd = known.ExamShiftSds[Topics[t]];
            Assert.InRange(sd, 0.01, 0.08);
            Assert.InRange(known.ExamShifts[Topics[t]], shifts[t] - (4 * sd), shifts[t] + (4 * sd));
        }

        Assert.Equal((0, 0), (known.TopicFormSd, known.ItemSpread));
        Assert.Equal(StandingAssumptions.Default.FormSd, known.FormSd);
    }

    [Fact]
    public void A_topic_that_the_test_did_not_hold_is_known_from_the_exam()
    {
        (CohortCounts test, CohortCounts exam) = DrawBoth(400, 8, 0, [0.8, -0.5, 0, 0], 5);
        CohortCounts three = test with
        {
            Topics = Topics[..3],
            Guess = test.Guess[..3],
            Correct = [.. test.Correct.Select(c => c[..3])],
            Answered = [.. test.Answered.Select(c => c[..3])],
        };
        CohortPrior prior = CohortPriorEstimator.Estimate(three);
        StandingAssumptions known = prior.ToAssumptions(StandingAssumptions.Default, three, exam);

        // The fourth topic's mean is 1, on the scale on which the three others' is theirs.
        Assert.Equal(1 - prior.MeanAbility.Value, known.ExamShifts["d"], 0.3);
    }

    [Fact]
    public void Log_likelihood_equals_brute_force_integration()
    {
        CohortCounts cohort = Draw(60, 5, 0.25, 1, 0.5, 4);
        CohortPrior prior = CohortPriorEstimator.Estimate(cohort);

        const double Step = 0.1;
        double[] lattice = [.. Enumerable.Range(0, 161).Select(i => -8 + (i * Step))];
        Assert.InRange(prior.AbilitySd.Value, 0.5, 1.5);
        double sum = 0;
        Dictionary<string, double> known = [];
        foreach (int[] correct in cohort.Correct)
        {
            if (!known.TryGetValue(string.Join(' ', correct), out double log))
            {
                double total = 0;
                foreach (double mu in lattice)
                {
                    double joint = Normal.PDF(0, prior.AbilitySd.Value, mu) * Step;
                    for (int t = 0; t < Topics.Length; t++)
                    {
                        double inner = 0;
                        foreach (double theta in lattice)
                        {
                            double p = 0.25 + (0.75 / (1 + Math.Exp(-(theta + prior.TopicMeans[cohort.Topics[t]].Value))));
                            inner += Normal.PDF(mu, prior.TopicSd.Value, theta) * Step * Math.Pow(p, correct[t]) * Math.Pow(1 - p, cohort.Answered[0][t] - correct[t]);
                        }

                        joint *= inner;
                    }

                    total += joint;
                }

                known[string.Join(' ', correct)] = log = Math.Log(total);
            }

            sum += log;
        }

        Assert.Equal(sum, prior.LogLikelihood, 1e-3);
    }

    [Fact]
    public void Spread_of_items_is_found_from_their_shares()
    {
        double[] difficulties = [.. Enumerable.Range(0, 40).Select(i => Normal.InvCDF(0, 0.8, (i + 0.5) / 40))];
        double[] shares = Array.ConvertAll(difficulties, b =>
        {
            double sum = 0;
            for (double z = -6; z <= 6; z += 0.05)
            {
                sum += Normal.PDF(0, 1, z) * 0.05 / (1 + Math.Exp(-((1.2 * z) - b)));
            }

            return sum;
        });
        Assert.Equal(0.8, CohortPriorEstimator.ItemSpreadOf([shares], 1_000_000, [0], 1.2), 0.05);
    }

    [Fact]
    public void A_test_too_short_to_show_its_items_spread_takes_the_usual_one()
        => Assert.Equal(CohortPriorEstimator.UsualSpread, CohortPriorEstimator.ItemSpreadOf([[0.4], [0.6]], 100, [0, 0], 1), 1e-12);

    [Fact]
    public void Learned_priors_expect_the_exams_topics_nearer_to_each_other()
    {
        CohortPrior prior = CohortPriorEstimator.Estimate(Draw(800, 2, 0, 1, 0.5, 5)) with { ItemSpread = 1 };
        StandingAssumptions assumptions = prior.ToAssumptions(StandingAssumptions.Default with { FormSd = 0 });
        Assert.Equal(prior.TopicMeans["d"].Value, assumptions.MeanAbility + assumptions.TopicShifts["d"], 1e-9);
        Assert.True(assumptions.ExamShifts["d"] < 0);
        Assert.True(assumptions.ExamShifts["c"] > 0);
        Assert.True(assumptions.ExamTopicFormSd("d", 2) > assumptions.ExamTopicFormSd("d", 20));
        Assert.True(assumptions.FormSd > 0);
    }

    [Fact]
    public void Too_few_people_or_answers_all_alike_are_refused()
    {
        CohortCounts few = Draw(CohortPriorEstimator.FewestPersons - 1, 8, 0, 1, 0.5, 1);
        Assert.Contains("29", Assert.Throws<UnsuitableDataException>(() => CohortPriorEstimator.Estimate(few)).Message, StringComparison.Ordinal);
        CohortCounts alike = Draw(50, 8, 0, 1, 0.5, 1) with { Correct = [.. Enumerable.Range(0, 50).Select(_ => new[] { 8, 4, 4, 4 })] };
        Assert.Contains("'a'", Assert.Throws<UnsuitableDataException>(() => CohortPriorEstimator.Estimate(alike)).Message, StringComparison.Ordinal);
    }

    private static CohortCounts Draw(int persons, int items, double guess, double abilitySd, double topicSd, int seed)
    {
        Random random = new(seed);
        Normal normal = new(0, 1, random);
        ImmutableArray<int[]> correct =
        [
            .. Enumerable.Range(0, persons).Select(_ =>
            {
                double mu = abilitySd * normal.Sample();
                return Means.Select(m =>
                {
                    double chance = guess + ((1 - guess) / (1 + Math.Exp(-(m + mu + (topicSd * normal.Sample())))));
                    return Enumerable.Range(0, items).Count(_ => random.NextDouble() < chance);
                }).ToArray();
            }),
        ];
        return new CohortCounts("diagnostic", Topics, [guess, guess, guess, guess], correct, [.. correct.Select(_ => new[] { items, items, items, items })]);
    }

    // The same people on a test and on an exam whose topics are easier or harder.
    private static (CohortCounts Test, CohortCounts Exam) DrawBoth(int persons, int items, double guess, double[] shifts, int seed)
    {
        Random random = new(seed);
        Normal normal = new(0, 1, random);
        List<int[]> test = [];
        List<int[]> exam = [];
        for (int p = 0; p < persons; p++)
        {
            double mu = normal.Sample();
            double[] abilities = [.. Means.Select(m => m + mu + (0.5 * normal.Sample()))];
            int Right(double ability) => Enumerable.Range(0, items).Count(_ => random.NextDouble() < guess + ((1 - guess) / (1 + Math.Exp(-ability))));
            test.Add([.. abilities.Select(Right)]);
            exam.Add([.. abilities.Select((a, t) => Right(a + shifts[t]))]);
        }

        CohortCounts Counts(string name, List<int[]> correct)
            => new(name, Topics, [guess, guess, guess, guess], [.. correct], [.. correct.Select(_ => new[] { items, items, items, items })]);
        return (Counts("diagnostic", test), Counts("exam", exam));
    }
}
