using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Measurement.Equating;
using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement.Equating;

/// <summary>Against Kolen &amp; Brennan's worked values and against base R on real answers (Reference/equating.R has data, licences and versions).</summary>
public class EquatingTests
{
    // Both sides are sums in double precision; R prints 15 digits.
    private const double Same = 1e-9;

    // Both sides iterate to a maximum.
    private const double Fitted = 1e-7;

    /// <summary>Kolen &amp; Brennan 2004, table 2.3 and section 2.5.2: a test of four items; checked against the example of R's SNSequate (eqp.eq), which cites it.</summary>
    [Fact]
    public void Small_example_of_Kolen_and_Brennan()
    {
        PercentileRanks first = new([0.2, 0.3, 0.2, 0.2, 0.1]);
        PercentileRanks second = new([0.1, 0.2, 0.2, 0.3, 0.2]);

        Assert.Equal([0.10, 0.35, 0.60, 0.80, 0.95], Enumerable.Range(0, 5).Select(x => first.Rank(x)), Near(1e-12));
        Assert.Equal([0.05, 0.20, 0.40, 0.65, 0.90], Enumerable.Range(0, 5).Select(x => second.Rank(x)), Near(1e-12));
        Assert.Equal([0.5, 1.75, 2.8333, 3.5, 4.25], Enumerable.Range(0, 5).Select(x => second.Score(first.Rank(x))), Near(5e-5));
    }

    /// <summary>Kolen &amp; Brennan 2004, tables 2.5 to 2.8: means and the moments of equated scores as cited by the tests of Equate.jl; equivalents from memory.</summary>
    [Fact]
    public void Mathematics_example_of_Kolen_and_Brennan()
    {
        (int[] first, int[] second) = Act();
        double[] equivalents = Equivalents(ScoreShares.Seen(first), ScoreShares.Seen(second));

        Assert.Equal(19.8524, Mean(first), 5e-5);
        Assert.Equal(18.9798, Mean(second), 5e-5);
        Assert.Equal([0.0000, 0.9796, 1.6462, 2.2856, 2.8932, 3.6205, 4.4997, 5.5148], equivalents[..8], Near(5e-5));
        double n = first.Sum();
        double mean = equivalents.Select((e, x) => e * first[x] / n).Sum();
        Assert.Equal(18.9799, mean, 5e-5);
        Assert.Equal(8.9352, Math.Sqrt(equivalents.Select((e, x) => (e - mean) * (e - mean) * first[x] / n).Sum()), 5e-5);
    }

    [Theory]
    [InlineData("plain", 0, Same)]
    [InlineData("smooth3", 3, Fitted)]
    [InlineData("smooth6", 6, Fitted)]
    public void Equivalents_of_the_mathematics_example_agree_with_R(string figure, int degree, double tolerance)
    {
        (int[] first, int[] second) = Act();
        double[] equivalents = degree == 0
            ? Equivalents(ScoreShares.Seen(first), ScoreShares.Seen(second))
            : Equivalents(ScoreShares.Smoothed(first, degree), ScoreShares.Smoothed(second, degree));
        Assert.Equal(Reference("act", figure), equivalents, Near(tolerance));
    }

    [Fact]
    public void Smoothing_keeps_as_many_moments_as_its_degree()
    {
        (int[] first, _) = Act();
        double n = first.Sum();
        double[] smooth = ScoreShares.Smoothed(first, 4).Shares;
        for (int moment = 1; moment <= 4; moment++)
        {
            double seen = first.Select((f, x) => f / n * Math.Pow(x / 40.0, moment)).Sum();
            Assert.Equal(seen, smooth.Select((s, x) => s * Math.Pow(x / 40.0, moment)).Sum(), 1e-10);
        }
    }

    [Fact]
    public void Linear_equating_of_one_group_agrees_with_R()
    {
        LinearEquating linear = new(Halves());
        Assert.Equal(Reference("math", "linear"), Enumerable.Range(0, 8).Select(x => linear.Equivalent(x).Value), Near(Same));

        // R's errors are the jackknife's: another large-sample estimate of the same.
        Assert.All(Reference("math", "linear.error").Select((e, x) => (e, x)), r => Assert.Equal(1, linear.Equivalent(r.x).StandardError / r.e, 0.01));
    }

    [Theory]
    [InlineData("smooth2", 2)]
    [InlineData("smooth4", 4)]
    public void Equipercentile_equating_of_one_group_agrees_with_R(string figure, int degree)
    {
        EquipercentileEquating ranks = new(Halves(), degree);
        Assert.Equal(Reference("math", figure), Enumerable.Range(0, 8).Select(x => ranks.Equivalent(x).Value), Near(Fitted));
        Assert.All(Reference("math", figure + ".error").Select((e, x) => (e, x)), r => Assert.Equal(1, ranks.Equivalent(r.x).StandardError / r.e, 0.01));
    }

    [Fact]
    public void Equipercentile_equating_without_smoothing_agrees_with_R()
    {
        EquipercentileEquating ranks = new(Halves(), 0);
        Assert.Equal(0, ranks.FirstDegree);
        Assert.Equal(Reference("math", "plain"), Enumerable.Range(0, 8).Select(x => ranks.Equivalent(x).Value), Near(Same));
        Assert.All(Reference("math", "plain.error").Select((e, x) => (e, x)), r => Assert.Equal(1, ranks.Equivalent(r.x).StandardError / r.e, 0.02));
    }

    [Fact]
    public void The_degree_is_the_one_with_the_lowest_criterion()
    {
        EquipercentileEquating ranks = new(Halves());
        Assert.Equal(2 + IndexOfMin(Reference("math", "aic.first")), ranks.FirstDegree);
        Assert.Equal(2 + IndexOfMin(Reference("math", "aic.second")), ranks.SecondDegree);

        static int IndexOfMin(double[] values) => Array.IndexOf(values, values.Min());
    }

    /// <summary>Kolen &amp; Brennan 2004, table 7.2, single group, normal scores: variance = var(Y) (1 - r) (2 + (1 + r) z²) / n (from memory; derived anew).</summary>
    [Fact]
    public void Standard_error_of_linear_equating_is_the_published_one_for_normal_scores()
    {
        ScorePairs pairs = Simulated(20_000, 200, 160, 0.8, 3);
        LinearEquating linear = new(pairs);
        double n = pairs.Pairs.Length;
        double meanX = pairs.Pairs.Average(p => p.First);
        double sdX = Math.Sqrt(pairs.Pairs.Average(p => Math.Pow(p.First - meanX, 2)));
        double meanY = pairs.Pairs.Average(p => p.Second);
        double varianceY = pairs.Pairs.Average(p => Math.Pow(p.Second - meanY, 2));
        double r = pairs.Correlation;
        foreach (double z in (double[])[-2, -1, 0, 1, 2])
        {
            double published = Math.Sqrt(varianceY * (1 - r) * (2 + ((1 + r) * z * z)) / n);
            Assert.Equal(1, linear.Equivalent(meanX + (z * sdX)).StandardError / published, 0.03);
        }
    }

    [Fact]
    public void Standard_errors_are_those_of_drawing_the_people_again()
    {
        ScorePairs pairs = Simulated(250, 52, 40, 0.8, 11);
        LinearEquating linear = new(pairs);
        EquipercentileEquating ranks = new(pairs, 3);
        Random random = new(5);
        const int Draws = 600;
        int[] scores = [22, 27, 32];
        double[][] linearDraws = [.. scores.Select(_ => new double[Draws])];
        double[][] rankDraws = [.. scores.Select(_ => new double[Draws])];
        for (int draw = 0; draw < Draws; draw++)
        {
            ScorePairs again = new(52, 40, [.. Enumerable.Range(0, pairs.Pairs.Length).Select(_ => pairs.Pairs[random.Next(pairs.Pairs.Length)])]);
            LinearEquating linearAgain = new(again);
            EquipercentileEquating ranksAgain = new(again, 3);
            for (int i = 0; i < scores.Length; i++)
            {
                linearDraws[i][draw] = linearAgain.Equivalent(scores[i]).Value;
                rankDraws[i][draw] = ranksAgain.Equivalent(scores[i]).Value;
            }
        }

        for (int i = 0; i < scores.Length; i++)
        {
            // 600 draws give a standard deviation to 3 %; three of those, and a few percent for the delta method.
            Assert.Equal(1, linear.Equivalent(scores[i]).StandardError / Spread(linearDraws[i]), 0.12);
            Assert.Equal(1, ranks.Equivalent(scores[i]).StandardError / Spread(rankDraws[i]), 0.12);
        }
    }

    [Fact]
    public void A_test_equated_to_itself_stays_as_it_is()
    {
        ScorePairs half = Halves();
        ScorePairs same = new(7, 7, [.. half.Pairs.Select(p => new ScorePair(p.First, p.First))]);
        for (int x = 0; x <= 7; x++)
        {
            Assert.Equal(x, new LinearEquating(same).Equivalent(x).Value, 1e-9);
            Assert.Equal(0, new LinearEquating(same).Equivalent(x).StandardError, 1e-9);
            Assert.Equal(x, new EquipercentileEquating(same, 3).Equivalent(x).Value, 1e-9);
            Assert.Equal(0, new EquipercentileEquating(same, 3).Equivalent(x).StandardError, 1e-9);
        }
    }

    [Fact]
    public void There_and_back_is_where_one_was()
    {
        ScorePairs pairs = Simulated(500, 52, 52, 0.9, 21);
        LinearEquating there = new(pairs);
        LinearEquating back = new(new ScorePairs(52, 52, [.. pairs.Pairs.Select(p => new ScorePair(p.Second, p.First))]));
        Assert.Equal(33, back.Equivalent(there.Equivalent(33).Value).Value, 1e-9);
    }

    [Fact]
    public void Data_that_cannot_be_equated_are_refused_in_a_sentence()
    {
        ImmutableArray<ScorePair> pairs = Halves().Pairs;
        Assert.Equal("Only 29 people took both tests; equating needs at least 30.", Refusal(pairs[..29]));
        Assert.Equal("Only 1 person took both tests; equating needs at least 30.", Refusal(pairs[..1]));
        Assert.Equal("Only 0 people took both tests; equating needs at least 30.", Refusal([]));
        Assert.Equal(
            "On the second test there is only one score; equating needs people who differ, at least 4 different scores.",
            Refusal([.. pairs.Select(p => p with { Second = 6 })]));
        Assert.Equal(
            "On the first test there are only 2 different scores; equating needs people who differ, at least 4 different scores.",
            Refusal([.. pairs.Select(p => p with { First = p.First > 3 ? 1 : 0 })]));
        ScorePairs four = new(7, 6, [.. pairs.Select(p => new ScorePair(p.First % 4, p.Second))]);
        Assert.Throws<UnsuitableDataException>(() => new EquipercentileEquating(four, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => new EquipercentileEquating(Halves(), 7));
        Assert.Throws<ArgumentOutOfRangeException>(() => new EquipercentileEquating(Halves(), 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ScorePairs(5, 6, pairs));

        static string Refusal(ImmutableArray<ScorePair> pairs) => Assert.Throws<UnsuitableDataException>(() => new ScorePairs(7, 6, pairs)).Message;
    }

    [Fact]
    public void Whatever_the_scores_equivalents_rise_and_are_numbers()
    {
        CsCheck.Check.Sample(
            CsCheck.Gen.Select(CsCheck.Gen.Int[30, 80], CsCheck.Gen.Int[4, 60], CsCheck.Gen.Int[4, 60], CsCheck.Gen.Int[0, 1_000_000]),
            t =>
            {
                (int people, int firstItems, int secondItems, int seed) = t;
                Random random = new(seed);
                ImmutableArray<ScorePair> pairs = [.. Enumerable.Range(0, people).Select(_ => new ScorePair(random.Next(firstItems + 1), random.Next(random.Next(secondItems + 1) + 1)))];
                if (pairs.Select(p => p.First).Distinct().Count() < 4 || pairs.Select(p => p.Second).Distinct().Count() < 4)
                {
                    return;
                }

                ScorePairs usable = new(firstItems, secondItems, pairs);
                foreach (int? degree in (int?[])[null, 0, 3])
                {
                    EquipercentileEquating ranks = new(usable, degree);
                    double last = -0.5;
                    for (int x = 0; x <= firstItems; x++)
                    {
                        Estimate equivalent = ranks.Equivalent(x);
                        Assert.InRange(equivalent.Value, last - 1e-9, secondItems + 0.5);
                        Assert.True(equivalent.StandardError >= 0);
                        last = equivalent.Value;
                    }
                }
            },
            iter: 100);
    }

    private static double[] Equivalents(ScoreShares first, ScoreShares second)
    {
        PercentileRanks from = new(first.Shares);
        PercentileRanks to = new(second.Shares);
        return [.. first.Shares.Select((_, x) => to.Score(from.Rank(x)))];
    }

    private static (int[] First, int[] Second) Act()
    {
        string[][] rows = [.. ReferenceTable.Rows("equating-act.csv")];
        return ([.. rows.Select(r => (int)ReferenceTable.Number(r[1]))], [.. rows.Select(r => (int)ReferenceTable.Number(r[2]))]);
    }

    // The mathematics exam's items 1, 3, 5, ... against 2, 4, 6, ...
    private static ScorePairs Halves() => new(7, 6, [.. ReferenceTable.Rows("real/math-exam-14w.csv").Select(row => new ScorePair(
        row.Where((_, i) => i % 2 == 0).Count(c => c == "1"),
        row.Where((_, i) => i % 2 == 1).Count(c => c == "1")))]);

    // Normal scores, rounded, first and second with this correlation.
    private static ScorePairs Simulated(int people, int firstItems, int secondItems, double r, int seed)
    {
        MathNet.Numerics.Distributions.Normal normal = new(0, 1, new Random(seed));
        return new ScorePairs(firstItems, secondItems, [.. Enumerable.Range(0, people).Select(_ =>
        {
            double x = normal.Sample();
            double y = (r * x) + (Math.Sqrt(1 - (r * r)) * normal.Sample());
            return new ScorePair(Score(x, firstItems, 0.5), Score(y, secondItems, 0.55));
        })]);

        static int Score(double z, int items, double centre) => (int)Math.Clamp(Math.Round(items * (centre + (0.11 * z))), 0, items);
    }

    private static double Spread(double[] values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1));
    }

    private static double Mean(int[] frequencies) => frequencies.Select((f, x) => (double)f * x).Sum() / frequencies.Sum();

    private static double[] Reference(string set, string figure)
        => [.. ReferenceTable.Rows("equating.csv").Where(r => r[0] == set && r[1] == figure).OrderBy(r => ReferenceTable.Number(r[2])).Select(r => ReferenceTable.Number(r[3]))];

    private static Func<double, double, bool> Near(double tolerance) => (a, b) => Math.Abs(a - b) <= tolerance;
}
