using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Homestretch.Files.Tests;

/// <summary>What every problem shown to a person must be like.</summary>
public static partial class ProblemChecks
{
    /// <summary>Checks the problems against a file of lines "LINE: text that must occur".</summary>
    public static void Match(ImmutableArray<FileProblem> problems, string expectedFile)
    {
        foreach (FileProblem problem in problems)
        {
            Assert.DoesNotMatch(TypeName(), problem.Message);
            Assert.InRange(problem.Line, 1, int.MaxValue);
            Assert.InRange(problem.Message.Length, 1, 700);
        }

        string[] expected = File.ReadAllLines(expectedFile);
        Assert.NotEmpty(expected);
        foreach (string line in expected)
        {
            int colon = line.IndexOf(':', StringComparison.Ordinal);
            int number = int.Parse(line[..colon], CultureInfo.InvariantCulture);
            string text = line[(colon + 1)..].Trim();
            Assert.True(
                problems.Any(p => p.Line == number && p.Message.Contains(text, StringComparison.Ordinal)),
                $"Expected in line {number}: {text}\nFound:\n{string.Join('\n', problems)}");
        }

        // Nothing may be reported for lines that hold no fault.
        HashSet<int> lines = [.. expected.Select(l => int.Parse(l[..l.IndexOf(':', StringComparison.Ordinal)], CultureInfo.InvariantCulture))];
        if (problems.Length < 50)
        {
            Assert.All(problems, p => Assert.Contains(p.Line, lines));
        }
    }

    [GeneratedRegex(@"Exception|System\.|NodaTime|CsvHelper|Ical\.Net|Homestretch\.|\bat [A-Z]\w+\.\w+\(|Nullable|String\b|Int32|`1")]
    public static partial Regex TypeName();
}
