using CsCheck;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Tests.Blueprints;

public class ApportionmentTests
{
    // Census of 1790 as used for the first apportionment: electowiki.org, "Hamilton method" (example), states in order of size.
    private static readonly double[] Census1790 =
        [630_560, 475_327, 432_879, 353_523, 331_589, 278_514, 236_841, 206_236, 179_570, 141_822, 85_533, 70_835, 68_705, 68_446, 55_540];

    [Fact]
    public void The_vetoed_bill_of_1792_with_120_seats()
    {
        // "For All Practical Purposes", 10th ed. (COMAP, W. H. Freeman), chapter 14, example 6, table 14.5: Virginia 21, Massachusetts 16,
        // Pennsylvania 14, North Carolina 12, New York 11, Maryland 9, Connecticut 8, South Carolina 7, New Jersey 6, New Hampshire 5, Vermont 3,
        // Georgia, Kentucky, Rhode Island and Delaware 2. The same bill is in Balinski & Young, "Fair Representation", chapter 3.
        Assert.Equal([21, 16, 14, 12, 11, 9, 8, 7, 6, 5, 3, 2, 2, 2, 2], Apportionment.LargestRemainder(Census1790, 120));
    }

    [Fact]
    public void The_census_of_1790_with_60_seats()
    {
        // electowiki.org, "Hamilton method", worked example.
        Assert.Equal([11, 8, 7, 6, 6, 5, 4, 3, 3, 2, 1, 1, 1, 1, 1], Apportionment.LargestRemainder(Census1790, 60));
    }

    [Fact]
    public void Counties_of_Delaware_with_41_seats()
    {
        // D. Lippman, "Math in Society", chapter on apportionment (from memory): Kent 7, New Castle 25, Sussex 9.
        Assert.Equal([7, 25, 9], Apportionment.LargestRemainder([162_310, 538_479, 197_145], 41));
    }

    [Fact]
    public void Counties_of_Rhode_Island_with_75_seats()
    {
        // D. Lippman, "Math in Society", chapter on apportionment (from memory): Bristol 3, Kent 12, Newport 6, Providence 45, Washington 9.
        Assert.Equal([3, 12, 6, 45, 9], Apportionment.LargestRemainder([49_875, 166_158, 82_888, 626_667, 126_979], 75));
    }

    [Fact]
    public void One_seat_more_can_cost_a_seat()
    {
        // The Alabama paradox in P. Tannenbaum's example of three states (from memory): A falls from 10 to 9 seats.
        // The census of 1880 itself (Alabama 8 of 299, 7 of 300) is not used: the seat guaranteed to Nevada changes the remainders there.
        double[] states = [940, 9_030, 10_030];
        Assert.Equal([10, 90, 100], Apportionment.LargestRemainder(states, 200));
        Assert.Equal([9, 91, 101], Apportionment.LargestRemainder(states, 201));
    }

    [Fact]
    public void The_quotas_of_1880_round_as_published()
    {
        // "For All Practical Purposes", 10th ed., example 7: at 300 seats the quotas of Illinois, Texas and Alabama are 18.70159, 9.67158 and 7.67117.
        // Seats go to Illinois and Texas, not to Alabama. The other states are one weight here, made so that the quotas keep their size and two seats are left for the three.
        double[] quotas = [18.70159, 9.67158, 7.67117];
        double filler = 36 - quotas.Sum() + 2;
        Assert.Equal([19, 10, 7, 2], Apportionment.LargestRemainder([.. quotas, filler], 38));
    }

    [Fact]
    public void Ties_go_to_the_heavier_then_to_the_earlier()
    {
        // By hand: 13.5 and 22.5, one seat left; then equal weights.
        Assert.Equal([13, 23], Apportionment.LargestRemainder([13.5, 22.5], 36));
        Assert.Equal([2, 1, 1], Apportionment.LargestRemainder([1, 1, 1], 4));
        Assert.Equal([1, 1, 1, 0, 0], Apportionment.LargestRemainder([1, 1, 1, 1, 1], 3));
    }

    [Fact]
    public void Quotas_that_are_whole_numbers_on_paper_stay_whole()
    {
        // 0.35 and 0.07 are not exact in binary; 60 items as 35, 35, 30 % are 21, 21, 18, and 100 items as 7 x 14 % and 2 % need no rounding.
        Assert.Equal([21, 21, 18], Apportionment.LargestRemainder([0.35, 0.35, 0.3], 60));
        Assert.Equal([14, 14, 14, 14, 14, 14, 14, 2], Apportionment.LargestRemainder([.14, .14, .14, .14, .14, .14, .14, .02], 100));
    }

    [Fact]
    public void Weights_without_a_share_get_nothing()
    {
        Assert.Equal([0, 5, 0], Apportionment.LargestRemainder([0, 3, 0], 5));
        Assert.Equal([0, 0], Apportionment.LargestRemainder([1, 2], 0));
    }

    [Theory]
    [InlineData(new double[] { })]
    [InlineData(new double[] { 0, 0 })]
    [InlineData(new double[] { 1, -1 })]
    [InlineData(new double[] { 1, double.NaN })]
    [InlineData(new double[] { 1, double.PositiveInfinity })]
    public void Weights_that_mean_nothing_are_refused(double[] weights) =>
        Assert.Throws<ArgumentException>(() => Apportionment.LargestRemainder(weights, 10));

    [Fact]
    public void A_negative_total_is_refused() => Assert.Throws<ArgumentOutOfRangeException>(() => Apportionment.LargestRemainder([1, 2], -1));

    [Fact]
    public void Counts_sum_and_stay_within_their_quota()
    {
        Gen.Select(Gen.Double[0, 100].Array[1, 40], Gen.Int[0, 2000]).Where(t => t.Item1.Sum() > 1e-3).Sample((weights, total) =>
        {
            int[] counts = Apportionment.LargestRemainder(weights, total);
            Assert.Equal(total, counts.Sum());
            double sum = weights.Sum();
            for (int i = 0; i < counts.Length; i++)
            {
                double quota = weights[i] / sum * total;
                Assert.InRange(counts[i], Math.Floor(quota - 1e-6), Math.Ceiling(quota + 1e-6));
            }
        });
    }

    [Fact]
    public void A_heavier_weight_never_gets_less()
    {
        Gen.Select(Gen.Int[0, 60].Array[2, 20], Gen.Int[0, 300]).Where(t => t.Item1.Sum() > 0).Sample((weights, total) =>
        {
            int[] counts = Apportionment.LargestRemainder([.. weights.Select(w => (double)w)], total);
            for (int i = 0; i < weights.Length; i++)
            {
                for (int j = 0; j < weights.Length; j++)
                {
                    Assert.True(weights[i] <= weights[j] || counts[i] >= counts[j]);
                }
            }
        });
    }

    [Fact]
    public void Scaling_all_weights_changes_nothing()
    {
        Gen.Select(Gen.Int[1, 100].Array[1, 20], Gen.Int[0, 300], Gen.Int[1, 50]).Sample((weights, total, factor) =>
            Assert.Equal(
                Apportionment.LargestRemainder([.. weights.Select(w => (double)w)], total),
                Apportionment.LargestRemainder([.. weights.Select(w => (double)w * factor)], total)));
    }
}
