using F23.StringSimilarity;

namespace Homestretch.Files;

/// <summary>Finds the name a person most likely meant.</summary>
public static class NearestName
{
    private const int LongestCompared = 200;

    private static readonly Damerau Distance = new();

    /// <summary>The known name nearest to <paramref name="given"/>, or null when none is near enough to be worth suggesting.</summary>
    /// <remarks>Distance is the number of letters inserted, dropped, changed or swapped (Damerau-Levenshtein), without regard to
    /// case, stray spaces, hyphens and underscores. Near enough is a third of the longer name, rounded up. A name that contains the other one whole, from four
    /// letters up, is near as well. The first of several equally near names is taken.</remarks>
    public static string? Suggest(string given, IEnumerable<string> known)
    {
        ArgumentNullException.ThrowIfNull(given);
        ArgumentNullException.ThrowIfNull(known);
        string wanted = Plain(given);
        if (wanted.Length is 0 or > LongestCompared)
        {
            return null;
        }

        string? best = null;
        double bestDistance = double.PositiveInfinity;
        string? containing = null;
        foreach (string name in known)
        {
            string candidate = Plain(name);
            if (candidate.Length is 0 or > LongestCompared)
            {
                continue;
            }

            int longer = Math.Max(candidate.Length, wanted.Length);
            double distance = Distance.Distance(wanted, candidate);
            if (distance <= (longer + 2) / 3 && distance < longer && distance < bestDistance)
            {
                best = name;
                bestDistance = distance;
            }

            if (containing is null && Math.Min(candidate.Length, wanted.Length) >= 4
                && (candidate.Contains(wanted, StringComparison.Ordinal) || wanted.Contains(candidate, StringComparison.Ordinal)))
            {
                containing = name;
            }
        }

        return best ?? containing;
    }

    private static string Plain(string name) =>
        string.Join(' ', name.ToLowerInvariant().Split([' ', '\t', '\u00a0', '-', '_'], StringSplitOptions.RemoveEmptyEntries));
}
