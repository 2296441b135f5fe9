using System.Globalization;

namespace Homestretch.Files.Pictures;

/// <summary>Numbers as people read them: rounded to what is known, never 0 % or 100 % where it is a chance.</summary>
public static class Figures
{
    private const string Minus = "\u2212";

    /// <summary>A chance or share without decimals: "71 %", "under 1 %", "over 99 %".</summary>
    /// <param name="share">0 to 1.</param>
    public static string Percent(double share)
        => share < 0.005 ? "under 1 %" : share >= 0.995 ? "over 99 %" : string.Create(CultureInfo.InvariantCulture, $"{Whole(share * 100)} %");

    /// <summary>A share that was counted, without decimals: "64 %", "0 %", "100 %".</summary>
    /// <param name="share">0 to 1.</param>
    public static string Share(double share) => string.Create(CultureInfo.InvariantCulture, $"{Whole(share * 100)} %");

    /// <summary>A range of shares: "49 to 66 %".</summary>
    public static string PercentRange(double low, double high)
    {
        long from = Whole(low * 100);
        long to = Whole(high * 100);
        return from == to ? Percent(low) : string.Create(CultureInfo.InvariantCulture, $"{from} to {to} %");
    }

    /// <summary>A chance as a natural frequency: "about 7 of 10", "about 3 of 100", "fewer than 1 of 100".</summary>
    /// <param name="chance">0 to 1.</param>
    public static string OutOf(double chance)
        => IsNearEnd(chance) ? OutOfHundred(chance) : string.Create(CultureInfo.InvariantCulture, $"about {Whole(chance * 10)} of 10");

    /// <summary>A chance as a natural frequency of 100: "about 31 of 100", "fewer than 1 of 100", "more than 99 of 100".</summary>
    /// <param name="chance">0 to 1.</param>
    public static string OutOfHundred(double chance) => chance switch
    {
        < 0.005 => "fewer than 1 of 100",
        >= 0.995 => "more than 99 of 100",
        _ => string.Create(CultureInfo.InvariantCulture, $"about {Whole(chance * 100)} of 100"),
    };

    /// <summary>Whether tenths are too coarse to say how small, or how near to certain, a chance is.</summary>
    internal static bool IsNearEnd(double chance) => chance is < 0.095 or >= 0.905;

    /// <summary>How many of ten marks stand for a chance: the nearest number, but all ten only where it is over 99 %.</summary>
    /// <param name="chance">0 to 1.</param>
    public static int Tenths(double chance)
        => (int)Math.Clamp(Whole(chance * 10), 0, chance >= 0.995 ? 10 : 9);

    /// <summary>A difference of two chances in percentage points, in tenths where it is less than one: "+3 points", "+0.4 points", "−2 points", "no gain".</summary>
    /// <param name="difference">−1 to 1; 0.01 is one point.</param>
    public static string Points(double difference)
    {
        double tenths = Math.Round(Math.Abs(difference) * 100, 1, MidpointRounding.AwayFromZero);
        double shown = tenths < 1 ? tenths : Whole(tenths);
        return shown == 0
            ? "no gain"
            : string.Create(CultureInfo.InvariantCulture, $"{(difference < 0 ? Minus : "+")}{shown:0.#} {(shown == 1 ? "point" : "points")}");
    }

    /// <summary>How far a chance may move, without a sign and without decimals: "21 points", "under 1 points".</summary>
    /// <param name="share">0 to 1; 0.01 is one point.</param>
    public static string Distance(double share) => Percent(share).Replace(" %", " points", StringComparison.Ordinal);

    /// <summary>A gain in expected correct answers, to a tenth: "+0.4 items", "under 0.1 items", "no gain".</summary>
    public static string ItemGain(double items)
    {
        double tenth = Math.Round(items, 1, MidpointRounding.AwayFromZero);
        return tenth == 0
            ? items >= 0.0005 ? "under 0.1 items" : "no gain"
            : string.Create(CultureInfo.InvariantCulture, $"{(tenth < 0 ? Minus : "+")}{Math.Abs(tenth):0.#} {(Math.Abs(tenth) == 1 ? "item" : "items")}");
    }

    /// <summary>Expected correct answers as a whole number: "44".</summary>
    public static string Count(double items) => Whole(items).ToString(CultureInfo.InvariantCulture);

    /// <summary>A length of time: "40 min", "1 h", "1 h 20 min".</summary>
    /// <param name="minutes">Zero or more.</param>
    public static string Duration(int minutes) => (minutes / 60, minutes % 60) switch
    {
        (0, int rest) => string.Create(CultureInfo.InvariantCulture, $"{rest} min"),
        (int hours, 0) => string.Create(CultureInfo.InvariantCulture, $"{hours} h"),
        (int hours, int rest) => string.Create(CultureInfo.InvariantCulture, $"{hours} h {rest} min"),
    };

    /// <summary>A number of things with the right form of the noun: "1 item", "12 items".</summary>
    public static string Plural(int count, string one, string? many = null)
        => string.Create(CultureInfo.InvariantCulture, $"{count} {(count == 1 ? one : many ?? one + "s")}");

    internal static long Whole(double value) => (long)Math.Round(value, MidpointRounding.AwayFromZero);
}
