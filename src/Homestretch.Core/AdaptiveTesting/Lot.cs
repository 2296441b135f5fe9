using Homestretch.Core.Calibration;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Lots that follow from a text: the same text draws the same, on every machine.</summary>
internal static class Lot
{
    /// <summary>Numbers started from a text's FNV-1a hash (Fowler, Noll &amp; Vo).</summary>
    /// <param name="text">Compared without regard to case.</param>
    public static SplitMix Of(string text)
    {
        ulong hash = 14695981039346656037;
        foreach (char letter in text.ToUpperInvariant())
        {
            hash = unchecked((hash ^ letter) * 1099511628211);
        }

        return new SplitMix(hash);
    }
}
