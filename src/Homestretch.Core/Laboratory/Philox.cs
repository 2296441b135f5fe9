namespace Homestretch.Core.Laboratory;

/// <summary>Philox4x32-10: random numbers as a function of a counter and a key, without any state (Salmon, Moraes, Dror &amp; Shaw,
/// "Parallel random numbers: as easy as 1, 2, 3", SC 2011).</summary>
/// <remarks>Whoever asks for number n of purpose p of candidate c gets the same one, on whatever thread and in whatever order.</remarks>
internal static class Philox
{
    private const int Rounds = 10;
    private const uint FirstMultiplier = 0xD2511F53;
    private const uint SecondMultiplier = 0xCD9E8D57;
    private const uint FirstWeyl = 0x9E3779B9;
    private const uint SecondWeyl = 0xBB67AE85;

    /// <summary>Four 32-bit words for a counter of four words and a key of two.</summary>
    public static (uint A, uint B, uint C, uint D) Block((uint A, uint B, uint C, uint D) counter, uint key0, uint key1)
    {
        (uint a, uint b, uint c, uint d) = counter;
        for (int round = 0; round < Rounds; round++)
        {
            ulong first = (ulong)FirstMultiplier * a;
            ulong second = (ulong)SecondMultiplier * c;
            (a, b, c, d) = ((uint)(second >> 32) ^ b ^ key0, (uint)second, (uint)(first >> 32) ^ d ^ key1, (uint)first);
            unchecked
            {
                key0 += FirstWeyl;
                key1 += SecondWeyl;
            }
        }

        return (a, b, c, d);
    }
}
