using Homestretch.Core.Calibration;

namespace Homestretch.Core.Tests.Calibration;

public class SplitMixTests
{
    // First values of SplitMix64 from seed 1234567 as commonly published for checks of the algorithm (from memory).
    [Fact]
    public void The_published_sequence()
    {
        SplitMix random = new(1234567);
        Assert.Equal(
            [6457827717110365317UL, 3203168211198807973UL, 9817491932198370423UL, 4593380528125082431UL, 16408922859458223821UL],
            Enumerable.Range(0, 5).Select(_ => random.Next()));
    }

    [Fact]
    public void Doubles_fill_the_unit_interval_and_orders_are_equally_likely()
    {
        SplitMix random = SplitMix.For(1, 0);
        double[] draws = [.. Enumerable.Range(0, 10000).Select(_ => random.NextDouble())];
        Assert.All(draws, d => Assert.InRange(d, 0, 1));
        Assert.Equal(0.5, draws.Average(), 0.02);
        Dictionary<string, int> orders = [];
        for (int i = 0; i < 6000; i++)
        {
            int[] three = [0, 1, 2];
            random.Shuffle(three);
            orders[string.Concat(three)] = orders.GetValueOrDefault(string.Concat(three)) + 1;
        }

        Assert.Equal(6, orders.Count);

        // Each order is expected 1000 times; five standard deviations of a binomial count.
        Assert.All(orders.Values, n => Assert.InRange(n, 1000 - 145, 1000 + 145));
    }

    [Fact]
    public void Each_seed_and_part_has_a_sequence_of_its_own()
    {
        ulong[] firsts = [.. Enumerable.Range(0, 50).SelectMany(seed => Enumerable.Range(0, 50).Select(part => SplitMix.For(seed, part).Next()))];
        Assert.Equal(firsts.Length, firsts.Distinct().Count());
    }
}
