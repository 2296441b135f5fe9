using Homestretch.Core.Laboratory;

namespace Homestretch.Core.Tests.Laboratory;

/// <summary>The laboratory's random numbers.</summary>
public sealed class PhiloxTests
{
    // Known answers of the authors' own implementation (Random123, file tests/kat_vectors, lines "philox4x32 10").
    [Theory]
    [InlineData(0x00000000u, 0x00000000u, 0x00000000u, 0x00000000u, 0x00000000u, 0x00000000u, 0x6627e8d5u, 0xe169c58du, 0xbc57ac4cu, 0x9b00dbd8u)]
    [InlineData(0xffffffffu, 0xffffffffu, 0xffffffffu, 0xffffffffu, 0xffffffffu, 0xffffffffu, 0x408f276du, 0x41c83b0eu, 0xa20bc7c6u, 0x6d5451fdu)]
    [InlineData(0x243f6a88u, 0x85a308d3u, 0x13198a2eu, 0x03707344u, 0xa4093822u, 0x299f31d0u, 0xd16cfe09u, 0x94fdccebu, 0x5001e420u, 0x24126ea1u)]
    public void KnownAnswers(uint c0, uint c1, uint c2, uint c3, uint key0, uint key1, uint a, uint b, uint c, uint d)
        => Assert.Equal((a, b, c, d), Philox.Block((c0, c1, c2, c3), key0, key1));

    [Fact]
    public void UniformsAndNormalsHaveTheirMoments()
    {
        const int Count = 200_000;
        RandomSequence random = new(5, Draws.Person, 17);
        double sum = 0;
        double square = 0;
        double normalSum = 0;
        double normalSquare = 0;
        double normalFourth = 0;
        for (int i = 0; i < Count; i++)
        {
            double uniform = random.Uniform();
            Assert.InRange(uniform, 0, 1 - 1e-16);
            sum += uniform;
            square += uniform * uniform;
            double normal = random.Normal();
            normalSum += normal;
            normalSquare += normal * normal;
            normalFourth += normal * normal * normal * normal;
        }

        // Means of these powers, and five standard errors: var(u) = 1/12, var(u^2) = 4/45, var(z) = 1, var(z^2) = 2, var(z^4) = 96.
        double Error(double variance) => 5 * Math.Sqrt(variance / Count);
        Assert.Equal(0.5, sum / Count, Error(1 / 12.0));
        Assert.Equal(1 / 3.0, square / Count, Error(4 / 45.0));
        Assert.Equal(0, normalSum / Count, Error(1));
        Assert.Equal(1, normalSquare / Count, Error(2));
        Assert.Equal(3, normalFourth / Count, Error(96));
    }

    [Fact]
    public void SequencesDifferBySeedPurposeCandidateAndPart()
    {
        RandomSequence[] sequences =
        [
            new(1, Draws.Person, 1, 1), new(2, Draws.Person, 1, 1), new(1L << 40, Draws.Person, 1, 1), new(1, Draws.Form, 1, 1), new(1, Draws.Person, 2, 1), new(1, Draws.Person, 1, 2), new(1, Draws.Person, 1, -1),
        ];

        Assert.Equal(sequences.Length, sequences.Select(s => s.Uniform()).Distinct().Count());
        Assert.Equal(new RandomSequence(1, Draws.Person, 1, 1).Uniform(), sequences[0].Uniform());
    }

    [Fact]
    public void ChoosingIsFair()
    {
        // Each of five places is as likely to be first: 20,000 draws, 4,000 expected, standard deviation 57.
        int[] first = new int[5];
        RandomSequence random = new(1, Draws.Items, 3);
        for (int i = 0; i < 20_000; i++)
        {
            int[] values = [0, 1, 2, 3, 4];
            random.Choose(values, 2);
            Assert.Equal(10, values.Sum());
            first[values[0]]++;
        }

        Assert.All(first, n => Assert.InRange(n, 4000 - 285, 4000 + 285));
    }
}
