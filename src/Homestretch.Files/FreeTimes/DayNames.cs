using System.Text.RegularExpressions;

using Homestretch.Files.Yaml;

using NodaTime;

namespace Homestretch.Files.FreeTimes;

/// <summary>Reads days of the week: "Monday", "Mon", "Monday to Friday".</summary>
internal static partial class DayNames
{
    /// <summary>What is accepted, for messages.</summary>
    public const string Accepted = "a day such as Monday, several as [Monday, Thursday], or a run such as 'Monday to Friday'";

    private static readonly IsoDayOfWeek[] Week =
    [
        IsoDayOfWeek.Monday, IsoDayOfWeek.Tuesday, IsoDayOfWeek.Wednesday, IsoDayOfWeek.Thursday, IsoDayOfWeek.Friday, IsoDayOfWeek.Saturday, IsoDayOfWeek.Sunday,
    ];

    private static readonly string[] Names = [.. Week.Select(d => d.ToString())];

    /// <summary>The days in the order of the week's run, or null with what is wrong.</summary>
    public static IReadOnlyList<IsoDayOfWeek>? Parse(string text, out string? problem)
    {
        string[] ends = Run().Split(text);
        if (ends.Length > 2)
        {
            problem = $"{YamlProblems.Show(text)} is not accepted; give {Accepted}.";
            return null;
        }

        IsoDayOfWeek[] days = new IsoDayOfWeek[ends.Length];
        for (int i = 0; i < ends.Length; i++)
        {
            if (Day(ends[i]) is not { } day)
            {
                problem = NearestName.Suggest(ends[i], Names) is { } near
                    ? $"{YamlProblems.Show(ends[i])} is not a day of the week; did you mean {near}? Give {Accepted}."
                    : $"{YamlProblems.Show(ends[i])} is not a day of the week; give {Accepted}.";
                return null;
            }

            days[i] = day;
        }

        problem = null;
        if (days.Length == 1)
        {
            return days;
        }

        // A run may pass the weekend: Friday to Monday.
        int length = (((int)days[1] - (int)days[0] + Week.Length) % Week.Length) + 1;
        return [.. Enumerable.Range(0, length).Select(i => Week[((int)days[0] - 1 + i) % Week.Length])];
    }

    private static IsoDayOfWeek? Day(string text)
    {
        int index = Array.FindIndex(Names, n => n.Equals(text, StringComparison.OrdinalIgnoreCase) || n[..3].Equals(text, StringComparison.OrdinalIgnoreCase));
        return index < 0 ? null : Week[index];
    }

    [GeneratedRegex(@"\s+to\s+|\s*[-–]\s*", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Run();
}
