using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Files;
using Homestretch.Files.Evidences;

namespace Homestretch.Cli;

/// <summary>One test out of the evidence, of everyone who has answers item by item.</summary>
internal static class ChosenTest
{
    /// <summary>The sittings of the test that was named, or of the diagnostic that most people took; none, and the problem noted, where there is no such test.</summary>
    /// <param name="sheet">The evidence.</param>
    /// <param name="path">File to name in problems.</param>
    /// <param name="wanted">The test's name, or null.</param>
    /// <param name="inputs">Where problems are noted.</param>
    public static ImmutableArray<Attempt> Of(EvidenceSheet sheet, string path, string? wanted, Inputs inputs)
    {
        IGrouping<string, Attempt>[] tests = ItemScores.ByTest(sheet.Attempts);
        if (tests.Length == 0)
        {
            inputs.Refuse(path, "The evidence has no answers item by item; a test can only be judged by those (columns 'item' and 'correct', or 'item', 'chosen' and 'key').");
            return [];
        }

        IGrouping<string, Attempt>? test = wanted is { } name
            ? tests.FirstOrDefault(t => string.Equals(t.Key, name.Trim(), StringComparison.OrdinalIgnoreCase))
            : tests.OrderByDescending(t => t.Any(a => a.Kind == AttemptKind.Diagnostic)).ThenByDescending(t => t.Count()).First();
        if (test is null)
        {
            string[] names = [.. tests.Select(t => t.Key)];
            string near = NearestName.Suggest(wanted!, names) is { } n ? $"; did you mean '{n}'?" : ".";
            inputs.Refuse(path, $"There is no test '{wanted}' with answers item by item in the evidence{near} It names: {string.Join(", ", names.Take(20))}.");
            return [];
        }

        if (ItemScores.Contradiction(test) is { } contradiction)
        {
            inputs.Refuse(path, $"The sittings named '{test.Key}' are not of one test: {contradiction}. Give two tests two names, or mend the topic or key.");
        }

        return [.. test];
    }
}
