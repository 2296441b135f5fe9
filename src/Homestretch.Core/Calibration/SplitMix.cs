namespace Homestretch.Core.Calibration;

/// <summary>Numbers that look random and are the same for the same seed on every machine: SplitMix64 (Steele, Lea &amp; Flood 2014).</summary>
internal sealed class SplitMix(ulong seed)
{
    private const ulong Golden = 0x9E3779B97F4A7C15;
    private const int BitsOfDouble = 53;

    private ulong _state = seed;

    /// <summary>A sequence of its own for each pair of numbers.</summary>
    public static SplitMix For(int seed, int part) => new(new SplitMix((ulong)(uint)seed).Next() ^ (((ulong)(uint)part + 1) * Golden));

    public ulong Next()
    {
        _state = unchecked(_state + Golden);
        ulong z = _state;
        z = unchecked((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9);
        z = unchecked((z ^ (z >> 27)) * 0x94D049BB133111EB);
        return z ^ (z >> 31);
    }

    /// <summary>From 0 up to but not including 1.</summary>
    public double NextDouble() => (Next() >> (64 - BitsOfDouble)) * (1.0 / (1UL << BitsOfDouble));

    /// <summary>From 0 up to but not including <paramref name="below"/>.</summary>
    public int Below(int below) => (int)(NextDouble() * below);

    /// <summary>Every order is as likely (Fisher and Yates).</summary>
    public void Shuffle(Span<int> values)
    {
        for (int i = values.Length - 1; i > 0; i--)
        {
            int j = Below(i + 1);
            (values[i], values[j]) = (values[j], values[i]);
        }
    }
}
