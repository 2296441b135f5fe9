using System.Xml.Linq;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>The upright axis of a picture of chances: 0 to 100 %, with a line at every quarter.</summary>
/// <param name="Left">Where the lines begin.</param>
/// <param name="Right">Where they end.</param>
/// <param name="Top">Height of 100 %.</param>
/// <param name="Bottom">Height of 0 %.</param>
internal sealed record ChanceAxis(double Left, double Right, double Top, double Bottom)
{
    private const int Steps = 4;

    /// <summary>Height of a chance.</summary>
    /// <param name="share">0 to 1.</param>
    public double Y(double share) => Bottom - ((Bottom - Top) * share);

    /// <summary>The lines and their figures.</summary>
    public IEnumerable<XElement> Lines()
    {
        for (int step = 0; step <= Steps; step++)
        {
            double share = (double)step / Steps;
            yield return El("line", ("class", step == 0 ? "hs-base" : "hs-grid"), ("x1", Left), ("y1", Y(share)), ("x2", Right), ("y2", Y(share)));
            yield return El("text", ("class", "hs-quiet"), ("text-anchor", "end"), ("x", Left - 6), ("y", Y(share) + 4), FormattableString.Invariant($"{share * 100:0} %"));
        }
    }
}
