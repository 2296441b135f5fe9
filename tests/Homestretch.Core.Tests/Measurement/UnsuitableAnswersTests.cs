using System.Collections.Immutable;

using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Data that carry little or nothing: an answer in finite numbers, or a refusal in words.</summary>
public class UnsuitableAnswersTests
{
    public static TheoryData<string, string> Cases => new()
    {
        { "one person", "RWRWR" },
        { "one item", "R/W/R/W" },
        { "two items", "RW/WR/RR/WW/RW" },
        { "all right", "RRRR/RRRR/RRRR" },
        { "all wrong", "WWWW/WWWW" },
        { "nobody answered", "----/----" },
        { "constant columns", "RWRR/RWWR/RRWW/RWRW/RRRW" },
        { "perfectly ordered", "WWWW/RWWW/RRWW/RRRW/RRRR" },
        { "two halves that nothing ties", "RW---/WR---/--RWR/--WRW/--RRW" },
        { "opposite answers", "RWRW/WRWR/RWRW/WRWR" },
        { "nearly all missing", "R---W---------------/-W------R-----------/----R------------W--/---------W------R---" },
    };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Every_model_answers_in_finite_numbers_or_refuses_in_words(string name, string text)
    {
        Assert.NotEmpty(name);
        ResponseMatrix data = Parse(text);
        foreach (ItemModel model in Enum.GetValues<ItemModel>())
        {
            Check(() => MarginalEstimation.Fit(data, model, cancellation: TestContext.Current.CancellationToken) is var fit ? (fit.Items, fit.LogLikelihood) : default);
        }

        Check(() => ConditionalRasch.Fit(data, cancellation: TestContext.Current.CancellationToken) is var fit ? (fit.Items, fit.LogLikelihood) : default);
    }

    [Fact]
    public void With_95_percent_missing_the_rasch_model_still_finds_difficulties()
    {
        ItemCurve[] truth = [.. Enumerable.Range(0, 40).Select(j => new ItemCurve(1, -2 + (0.1 * j), 0))];
        ResponseMatrix data = SimulatedAnswers.Draw(truth, 4000, 1, 3, 0.95);
        MarginalCalibration fit = MarginalEstimation.Fit(data, ItemModel.Rasch, cancellation: TestContext.Current.CancellationToken);
        Assert.True(fit.Items.Zip(truth, (e, t) => Math.Abs(e.Curve.Difficulty - t.Difficulty) / e.Errors.Difficulty!.Value).Max() < 4);
    }

    [Fact]
    public void Constant_items_are_left_out_with_the_reason()
    {
        MarginalCalibration fit = MarginalEstimation.Fit(Parse(string.Join('/', Enumerable.Repeat("RWRR/RWWR/RRWW/RWRW/RRRW/RWWW", 20))), ItemModel.Rasch, cancellation: TestContext.Current.CancellationToken);
        LeftOutItem left = Assert.Single(fit.LeftOut);
        Assert.Equal("i1", left.Item);
        Assert.Contains("got it right", left.Reason, StringComparison.Ordinal);
        Assert.Equal(["i2", "i3", "i4"], fit.Items.Select(i => i.Item));
    }

    [Fact]
    public void Cancelling_stops_the_work()
    {
        using CancellationTokenSource source = new();
        source.Cancel();
        Assert.Throws<OperationCanceledException>(() => MarginalEstimation.Fit(Lsat6.Data, ItemModel.Rasch, cancellation: source.Token));
        Assert.Throws<OperationCanceledException>(() => ConditionalRasch.Fit(Lsat6.Data, cancellation: source.Token));
    }

    private static void Check(Func<(ImmutableArray<ItemEstimate> Items, double LogLikelihood)> fit)
    {
        try
        {
            (ImmutableArray<ItemEstimate> items, double logLikelihood) = fit();
            Assert.True(double.IsFinite(logLikelihood));
            foreach (ItemEstimate item in items)
            {
                double?[] numbers = [item.Curve.Discrimination, item.Curve.Difficulty, item.Curve.Guessing, item.Errors.Discrimination, item.Errors.Difficulty, item.Errors.Guessing];
                Assert.All(numbers, n => Assert.True(n is null || double.IsFinite(n.Value), $"{item}"));
            }
        }
        catch (UnsuitableDataException refusal)
        {
            Assert.EndsWith(".", refusal.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("NaN", refusal.Message, StringComparison.Ordinal);
        }
    }

    private static ResponseMatrix Parse(string text)
    {
        string[] rows = text.Split('/');
        return ResponseMatrix.Create(
            [.. Enumerable.Range(1, rows[0].Length).Select(j => $"i{j}")],
            rows.SelectMany(r => r.Select(c => c switch { 'R' => Answer.Right, 'W' => Answer.Wrong, _ => Answer.Missing })).ToArray());
    }
}
