using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Measurement;

namespace Homestretch.Calibration;

/// <summary>Real answers; Reference/real/README.md names their sources and licences.</summary>
/// <param name="Exam">The items' topics as an exam with one mark on the total.</param>
/// <param name="Answers">Who answered what; an empty cell means not given.</param>
public sealed record RealData(Exam Exam, ItemScores Answers)
{
    public static IEnumerable<string> Names => ["ability", "mathematics exam", "logical operations"];

    public static RealData Named(string name) => name switch
    {
        // 16 items in four areas. Eight options: from memory of the public-domain item pool.
        "ability" => Read("ability.csv", item => item.Split('.')[0], 8),

        // 13 items of a mathematics exam with five options, which could be left out: guessing is taken as rare. The topics are our reading of the items' names.
        "mathematics exam" => Read(
            "math-exam-14w.csv",
            item => item switch
            {
                "quad" or "deriv" or "elasticity" or "integral" => "analysis",
                "interest" or "annuity" or "payflow" => "finance",
                "matrix" or "planning" or "equations" => "linear algebra",
                _ => "several variables",
            },
            0),

        // 35 items of a test of logical operations, taken as one topic without guessing.
        "logical operations" => Read("blot.csv", _ => "logic", 0),
        _ => throw new ArgumentException($"There is no data set '{name}'.", nameof(name)),
    };

    private static RealData Read(string name, Func<string, string> topic, int options)
    {
        string[] lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Reference", "real", name));
        string[] items = lines[0].Split(',');
        ImmutableArray<Topic> topics = [.. items.GroupBy(topic).Select(g => new Topic(g.Key, Weight.Items(g.Count()), g.Count(), []))];
        Exam exam = new(name, null, null, [new Section(name, items.Length, 0, null, options, null, topics)], OverallRule.Total, new PercentCut(60), null, BandEdges.Default);
        ItemScores answers = new(
            [.. items.Select(i => new TestItem(i, topic(i), null, exam.Sections[0].GuessChance))],
            [.. lines[1..].Select((line, p) => new PersonAnswers($"Person {p + 1}", [.. line.Split(',').Select(cell => new ItemAnswer(Score(cell)))]))]);
        return new RealData(exam, answers);
    }

    private static ItemScore Score(string cell) => cell switch
    {
        "1" => ItemScore.Right,
        "0" => ItemScore.Wrong,
        _ => ItemScore.NotGiven,
    };
}
