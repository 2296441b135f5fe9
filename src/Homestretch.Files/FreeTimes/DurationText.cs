using System.Globalization;
using System.Text.RegularExpressions;

using Homestretch.Files.Yaml;

namespace Homestretch.Files.FreeTimes;

/// <summary>Reads a length of time: "4 h", "3.5 h", "240 min", "1 h 30 min".</summary>
internal static partial class DurationText
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "a length such as '4 h', '3.5 h', '240 min' or '1 h 30 min'";

    /// <summary>Whole minutes, 1 to <paramref name="most"/>, or null with what is wrong.</summary>
    public static int? ParseMinutes(string text, int most, out string? problem)
    {
        problem = null;
        Match match = Form().Match(text);
        if (!match.Success)
        {
            problem = BareNumber().IsMatch(text)
                ? $"{YamlProblems.Show(text)} has no unit; write '{text} h' or '{text} min'."
                : $"{YamlProblems.Show(text)} is not accepted; give {Accepted}.";
            return null;
        }

        decimal minutes = (Figure(match.Groups["h"]) * 60) + Figure(match.Groups["m"]);
        if (minutes != decimal.Floor(minutes))
        {
            problem = $"{YamlProblems.Show(text)} is {YamlProblems.Show((double)minutes)} minutes; give whole minutes, such as '{decimal.Round(minutes).ToString(CultureInfo.InvariantCulture)} min'.";
            return null;
        }

        if (minutes < 1 || minutes > most)
        {
            problem = $"{YamlProblems.Show(text)} is out of range; give 1 min to {most / 60} h.";
            return null;
        }

        return (int)minutes;
    }

    private static decimal Figure(Group group) => group.Success ? decimal.Parse(group.ValueSpan, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture) : 0;

    [GeneratedRegex(@"^(?=.*[a-z])((?<h>[0-9]{1,6}(\.[0-9]{1,4})?)\s*(h|hours?))?\s*((?<m>[0-9]{1,6})\s*(min|mins|minutes?))?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Form();

    [GeneratedRegex(@"^[0-9]{1,6}(\.[0-9]{1,4})?$", RegexOptions.CultureInvariant)]
    private static partial Regex BareNumber();
}
