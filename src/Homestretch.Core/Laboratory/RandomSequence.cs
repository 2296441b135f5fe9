namespace Homestretch.Core.Laboratory;

/// <summary>A sequence of random numbers for one candidate and purpose, the same for the same seed on every machine.</summary>
internal struct RandomSequence
{
    private const double DoubleStep = 1.0 / (1UL << 53);

    private readonly uint _key0;
    private readonly uint _key1;
    private readonly uint _purpose;
    private readonly uint _candidate;
    private readonly uint _part;
    private uint _block;
    private ulong _spare;
    private bool _hasSpare;

    /// <param name="seed">The run's seed.</param>
    /// <param name="purpose">What the numbers are for.</param>
    /// <param name="candidate">Running number of the candidate (of the exam, for what belongs to an exam).</param>
    /// <param name="part">Which of several sequences of one purpose: the number of a test, a topic, ...</param>
    public RandomSequence(long seed, Draws purpose, int candidate, int part = 0)
    {
        _key0 = (uint)seed;
        _key1 = (uint)(seed >> 32);
        _purpose = (uint)purpose;
        _candidate = (uint)candidate;
        _part = (uint)part;
    }

    /// <summary>From 0 up to but not including 1.</summary>
    public double Uniform()
    {
        if (_hasSpare)
        {
            _hasSpare = false;
            return (_spare >> 11) * DoubleStep;
        }

        (uint a, uint b, uint c, uint d) = Philox.Block((_block++, _purpose, _candidate, _part), _key0, _key1);
        _spare = ((ulong)c << 32) | d;
        _hasSpare = true;
        return ((((ulong)a << 32) | b) >> 11) * DoubleStep;
    }

    /// <summary>From 0 up to but not including <paramref name="below"/>.</summary>
    public int Below(int below) => (int)(Uniform() * below);

    /// <summary>A whole number between two, ends included.</summary>
    public int Between(int low, int high) => low + Below(high - low + 1);

    /// <summary>A normal variable with mean 0 and standard deviation 1 (Box &amp; Muller 1958; the sine half is not used, so that each takes two uniforms).</summary>
    public double Normal()
    {
        double radius = Math.Sqrt(-2 * Math.Log(1 - Uniform()));
        return radius * Math.Cos(2 * Math.PI * Uniform());
    }

    /// <summary>Puts the first <paramref name="count"/> places of <paramref name="values"/> in an order and choice as likely as any other (Fisher &amp; Yates).</summary>
    public void Choose(Span<int> values, int count)
    {
        for (int i = 0; i < count; i++)
        {
            int j = i + Below(values.Length - i);
            (values[i], values[j]) = (values[j], values[i]);
        }
    }
}
