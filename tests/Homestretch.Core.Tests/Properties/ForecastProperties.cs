using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Properties;

public class ForecastProperties
{
    // Quadrature is not exact to the last digit; a true violation is far larger.
    private const double Tolerance = 1e-7;

    [Fact]
    public void Chances_are_chances()
        => Generators.Cases.Sample(
            c =>
            {
                Forecast forecast = Calculate(c.Exam, Generators.Attempts(c.Counts));
                Assert.Equal(1, forecast.Distribution.Sum(), 1e-9);
                Assert.InRange(forecast.PassChance, 0, 1);
                Assert.All(forecast.Distribution, p => Assert.True(p >= 0));
                Assert.Equal(forecast.ExpectedCorrect, forecast.Distribution.Select((p, k) => p * k).Sum(), 1e-6);
                Assert.Equal(forecast.ExpectedCorrect, forecast.Sections.Sum(s => s.ExpectedCorrect), 1e-9);
                Assert.All(forecast.Sections, s => Assert.Equal(1, s.Distribution.Sum(), 1e-9));
            },
            iter: 300);

    [Fact]
    public void More_correct_answers_never_lower_the_pass_chance()
        => Gen.Select(Generators.Cases, Gen.Int[0, 100]).Sample(
            (c, pick) =>
            {
                int[] open = [.. Enumerable.Range(0, c.Counts.Length).Where(t => c.Counts[t].Correct < c.Counts[t].Items)];
                if (open.Length == 0)
                {
                    return;
                }

                int topic = open[pick % open.Length];
                ImmutableArray<(string Topic, int Correct, int Items)> better = c.Counts.SetItem(topic, c.Counts[topic] with { Correct = c.Counts[topic].Correct + 1 });
                double before = Calculate(c.Exam, Generators.Attempts(c.Counts)).PassChance;
                double after = Calculate(c.Exam, Generators.Attempts(better)).PassChance;
                Assert.True(after >= before - Tolerance, $"{before} fell to {after}");
            },
            iter: 300);

    [Fact]
    public void A_harder_cut_never_raises_the_pass_chance()
        => Gen.Select(Generators.Cases, Gen.Double[0, 25]).Sample(
            (c, more) =>
            {
                static CutScore? Harder(CutScore? cut, double more) => cut is PercentCut percent ? new PercentCut(Math.Min(100, percent.Percent + more)) : cut;
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                Exam harder = new(
                    c.Exam.Name,
                    null,
                    null,
                    [.. c.Exam.Sections.Select(s => new Section(s.Name, s.ScoredItems, s.UnscoredItems, s.Minutes, s.Options, Harder(s.Cut, more), s.Topics))],
                    c.Exam.Rule,
                    Harder(c.Exam.TotalCut, more),
                    null,
                    c.Exam.Bands);
                double before = ForecastCalculator.Calculate(standing).PassChance;
                double after = ForecastCalculator.Calculate(standing with { Exam = harder }).PassChance;
                Assert.True(after <= before + Tolerance, $"{before} rose to {after}");
            },
            iter: 300);

    [Fact]
    public void More_study_never_lowers_the_pass_chance()
        => Gen.Select(Generators.Cases, Gen.Int[0, 100], Gen.Double[0, 3]).Sample(
            (c, pick, more) =>
            {
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                ScoreModel model = new(c.Exam, standing.Posterior);
                double[] effort = [.. c.Exam.Topics.Select((_, t) => 0.1 * t)];
                double before = model.PassChance(effort);
                effort[pick % effort.Length] += more;
                double after = model.PassChance(effort);
                Assert.True(after >= before - Tolerance, $"{before} fell to {after}");
            },
            iter: 200);

    [Fact]
    public void Splitting_an_attempt_into_two_halves_of_the_same_day_changes_nothing()
        => Gen.Select(Generators.Cases, Gen.Double[0, 1]).Sample(
            (c, where) =>
            {
                ImmutableArray<(string Topic, int Correct, int Items)> first =
                    [.. c.Counts.Select(n => (n.Topic, (int)(n.Correct * where), (int)(n.Correct * where) + (int)((n.Items - n.Correct) * where)))];
                ImmutableArray<(string Topic, int Correct, int Items)> second =
                    [.. c.Counts.Zip(first, (n, f) => (n.Topic, n.Correct - f.Item2, n.Items - f.Item3))];
                CandidateStanding whole = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                CandidateStanding halves = StandingCalculator.Calculate(c.Exam, [.. Generators.Attempts(first), .. Generators.Attempts(second)], SampleExams.Today);
                Assert.Equal(whole.Topics.Select(t => t.Level.Mean), halves.Topics.Select(t => t.Level.Mean), (a, b) => Math.Abs(a - b) < 1e-12);
                Assert.Equal(ForecastCalculator.Calculate(whole).PassChance, ForecastCalculator.Calculate(halves).PassChance, 1e-12);
            },
            iter: 200);

    [Fact]
    public void Item_rows_and_counts_say_the_same()
        => Generators.Cases.Sample(
            c =>
            {
                ImmutableArray<Observation> items = [.. c.Counts.SelectMany(n => Enumerable.Range(0, n.Items).Select(i => (Observation)new ItemResponse(n.Topic, null, $"{i}", i < n.Correct, null, null)))];
                CandidateStanding byItem = StandingCalculator.Calculate(c.Exam, [new Attempt("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, items)], SampleExams.Today);
                CandidateStanding byCount = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                Assert.Equal(byCount.Topics.Select(t => t.Level), byItem.Topics.Select(t => t.Level));
            },
            iter: 100);

    [Fact]
    public void The_order_of_topics_in_the_file_does_not_matter()
        => Gen.Select(Generators.Cases, Gen.Int[1, 1000]).Sample(
            (c, seed) =>
            {
                Exam other = Generators.Reordered(c.Exam, seed);
                CandidateStanding standing = StandingCalculator.Calculate(c.Exam, Generators.Attempts(c.Counts), SampleExams.Today);
                CandidateStanding reordered = StandingCalculator.Calculate(other, Generators.Attempts(c.Counts), SampleExams.Today);
                Assert.Equal(ForecastCalculator.Calculate(standing).PassChance, ForecastCalculator.Calculate(reordered).PassChance, 1e-9);
                foreach (TopicStanding topic in standing.Topics)
                {
                    TopicStanding twin = reordered.Topics.Single(t => t.Topic.Name == topic.Topic.Name);
                    Assert.Equal(topic.Level.Mean, twin.Level.Mean, 1e-9);
                    Assert.Equal(topic.ItemsToSettle, twin.ItemsToSettle);
                }
            },
            iter: 200);

    private static Forecast Calculate(Exam exam, ImmutableArray<Attempt> attempts)
        => ForecastCalculator.Calculate(StandingCalculator.Calculate(exam, attempts, SampleExams.Today));
}
