using System.Globalization;

using Homestretch.Core.Planning.Calendar;

namespace Homestretch.Core.Planning.Wishes;

/// <summary>Wishes and what they cost, in words.</summary>
internal static class WishSentences
{
    // Less than half a point would be shown as none.
    private const double Noticeable = 0.005;

    public static string Of(CoachWishes wishes, double cost, FreeTime free)
    {
        string[] parts =
        [
            .. wishes.Pins.OrderBy(p => p.Start).Select(p => PinnedSlots.Named(p, free)),
            .. wishes.Include.Select(t => $"{t} included"),
            .. wishes.AtLeast.Select(m => string.Create(CultureInfo.InvariantCulture, $"at least {m.Minutes} minutes of {m.Topic}")),
            .. wishes.Avoid.Select(t => $"{t} left out"),
        ];
        return $"Your wishes are obeyed: {string.Join(", ", parts)}. They cost {Price(cost)}.";
    }

    private static string Price(double cost)
        => cost < Noticeable ? "next to nothing"
            : Math.Round(cost * 100) is var points && points == 1 ? "about 1 point of pass chance"
            : string.Create(CultureInfo.InvariantCulture, $"about {points:F0} points of pass chance");
}
