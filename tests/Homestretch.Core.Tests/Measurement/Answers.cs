using Homestretch.Core.Measurement;
using Homestretch.Core.Tests.Reference;

namespace Homestretch.Core.Tests.Measurement;

/// <summary>Answers for the tests.</summary>
internal static class Answers
{
    private static readonly Dictionary<string, double> _figures =
        ReferenceTable.Rows("measurement-figures.csv").ToDictionary(r => r[0], r => ReferenceTable.Number(r[1]));

    /// <summary>MathExam14W of R's psychotools: 729 people, 13 items.</summary>
    public static ItemScores MathExam() => FromLines(Lines("real/math-exam-14w.csv"), _ => "Mathematics");

    /// <summary>ability of R's psychTools: 1525 people, 16 items in four areas; those who answered everything, or all.</summary>
    public static ItemScores Ability(bool complete)
        => FromLines(Lines("real/ability.csv").Where(l => !complete || !l.Contains('.', StringComparison.Ordinal)), i => $"Area {(i / 4) + 1}");

    /// <summary>A figure that R gave (Reference/measurement.R).</summary>
    public static double Figure(string name) => _figures[name];

    /// <summary>One line per person: 1 right, 0 wrong, . not given, o omitted, n not reached.</summary>
    public static ItemScores FromLines(IEnumerable<string> lines, Func<int, string> topic)
    {
        string[] all = [.. lines];
        return new ItemScores(
            [.. Enumerable.Range(0, all[0].Length).Select(i => new TestItem($"{i + 1}", topic(i)))],
            [.. all.Select((line, p) => new PersonAnswers($"Person {p + 1}", [.. line.Select(c => new ItemAnswer(Score(c)))]))]);
    }

    public static ItemScores FromLines(params string[] lines) => FromLines(lines, _ => "Topic");

    private static ItemScore Score(char c) => c switch
    {
        '1' => ItemScore.Right,
        '0' => ItemScore.Wrong,
        '.' => ItemScore.NotGiven,
        'o' => ItemScore.Omitted,
        'n' => ItemScore.NotReached,
        _ => throw new ArgumentOutOfRangeException(nameof(c)),
    };

    private static IEnumerable<string> Lines(string file) => ReferenceTable.Rows(file).Select(r => string.Concat(r.Select(cell => cell.Length == 0 ? "." : cell)));
}
