using System.Globalization;

namespace Homestretch.Web.Tests;

/// <summary>A time zone where it is between nine and ten in the morning now: there the day still has blocks, whenever the tests run.</summary>
internal static class Morning
{
    /// <summary>Its name.</summary>
    public static string Zone
    {
        get
        {
            // The names of these zones count westwards.
            int offset = Offset(DateTime.UtcNow);
            return string.Create(CultureInfo.InvariantCulture, $"Etc/GMT{(offset > 0 ? "-" : "+")}{Math.Abs(offset)}");
        }
    }

    /// <summary>The day there, as the pages' fields take it.</summary>
    /// <param name="plus">Days later.</param>
    public static string Day(int plus = 0)
    {
        DateTime now = DateTime.UtcNow;
        return now.AddHours(Offset(now)).AddDays(plus).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
    }

    private static int Offset(DateTime now) => 9 - now.Hour + (now.Hour > 21 ? 24 : 0);
}
