using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>The share of items that people of one kind answer correctly, as it depends on how easy the items are.</summary>
/// <param name="guess">Chance of guessing right.</param>
/// <param name="mean">Mean ability of the people, in logits.</param>
/// <param name="sd">Its spread.</param>
internal sealed class ExpectedShare(double guess, double mean, double sd)
{
    private const int NodeCount = 31;
    private const double Farthest = 12;
    private const double Edge = 1e-3;
    private const double Tolerance = 1e-10;

    private readonly Node[] _nodes = GaussHermite.Normal(sd, NodeCount);

    /// <summary>The share with items so much easier than ability says, in logits.</summary>
    public double At(double shift)
    {
        ResponseCurve curve = new(guess, mean + shift);
        return _nodes.Sum(n => n.Weight * curve.Chance(n.At));
    }

    /// <summary>How fast the share grows with the shift, per logit.</summary>
    public double Slope(double shift)
    {
        ResponseCurve curve = new(0, mean + shift);
        return _nodes.Sum(n => n.Weight * (1 - guess) * curve.Chance(n.At) * (1 - curve.Chance(n.At)));
    }

    /// <summary>The shift at which the share is <paramref name="share"/>; shares at or beyond guessing and certainty are taken as just inside.</summary>
    public double ShiftFor(double share)
    {
        double inside = Math.Clamp(share, guess + ((1 - guess) * Edge), 1 - ((1 - guess) * Edge));
        double low = -Farthest - mean;
        double high = Farthest - mean;
        while (high - low > Tolerance)
        {
            double middle = (low + high) / 2;
            (low, high) = At(middle) < inside ? (middle, high) : (low, middle);
        }

        return (low + high) / 2;
    }
}
