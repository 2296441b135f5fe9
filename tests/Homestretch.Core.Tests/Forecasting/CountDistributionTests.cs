using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;
using Homestretch.Core.Tests.Reference;

using MathNet.Numerics.Integration;

namespace Homestretch.Core.Tests.Forecasting;

/// <summary>Against scipy 1.10.1; Reference/make.py writes the tables.</summary>
public class CountDistributionTests
{
    private const double Tolerance = 1e-10;

    [Fact]
    public void Binomial_chances_match_scipy()
    {
        int compared = 0;
        foreach (string[] row in ReferenceTable.Rows("binomial.csv"))
        {
            int n = int.Parse(row[0], null);
            double[] table = new double[n + 1];
            BinomialTable.Fill(n, [ReferenceTable.Number(row[1])], table);
            Assert.Equal(ReferenceTable.Number(row[3]), table[int.Parse(row[2], null)], Tolerance);
            compared++;
        }

        Assert.Equal(150, compared);
    }

    [Fact]
    public void A_mixture_of_binomials_over_a_beta_matches_scipys_beta_binomial()
    {
        int compared = 0;
        GaussLegendreRule rule = new(0, 1, 128);
        double[] chances = [.. rule.Abscissas];
        foreach (string[] row in ReferenceTable.Rows("beta-binomial.csv"))
        {
            int n = int.Parse(row[0], null);
            double a = ReferenceTable.Number(row[1]);
            double b = ReferenceTable.Number(row[2]);
            int k = int.Parse(row[3], null);
            double[] table = new double[(n + 1) * chances.Length];
            BinomialTable.Fill(n, chances, table);
            double sum = 0;
            for (int i = 0; i < chances.Length; i++)
            {
                sum += rule.Weights[i] * MathNet.Numerics.Distributions.Beta.PDF(a, b, chances[i]) * table[(k * chances.Length) + i];
            }

            Assert.Equal(ReferenceTable.Number(row[4]), sum, Tolerance);
            compared++;
        }

        Assert.Equal(54, compared);
    }

    [Fact]
    public void Convolution_of_single_items_matches_the_poisson_binomial()
    {
        int compared = 0;
        foreach (IGrouping<string, string[]> table in ReferenceTable.Rows("poisson-binomial.csv").GroupBy(r => r[1]))
        {
            double[] sum = [1.0];
            foreach (double p in table.Key.Split(' ').Select(ReferenceTable.Number))
            {
                sum = Convolution.Of(sum, [1 - p, p]);
            }

            foreach (string[] row in table)
            {
                Assert.Equal(ReferenceTable.Number(row[3]), sum[int.Parse(row[2], null)], Tolerance);
                compared++;
            }
        }

        Assert.Equal(55, compared);
    }

    [Theory]
    [InlineData(0.4)]
    [InlineData(1.0)]
    public void Gauss_hermite_gives_the_moments_of_a_normal(double sd)
    {
        // Central moments of a normal variable: 1, 0, sd^2, 0, 3 sd^4, 0, 15 sd^6 (any textbook).
        Node[] rule = GaussHermite.Normal(sd, 5);
        double Moment(int power) => rule.Sum(n => n.Weight * Math.Pow(n.At, power));
        double[] expected = [1, 0, sd * sd, 0, 3 * Math.Pow(sd, 4), 0, 15 * Math.Pow(sd, 6)];
        for (int power = 0; power < expected.Length; power++)
        {
            Assert.Equal(expected[power], Moment(power), 1e-12);
        }
    }
}
