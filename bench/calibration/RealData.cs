using System.Collections.Immutable;

namespace Homestretch.Calibration;

/// <summary>Real answers; Reference/real/README.md names their sources and licences.</summary>
public static class RealData
{
    public static IEnumerable<string> Names => ["ability", "mathematics exam", "logical operations"];

    public static ScoredItems Named(string name) => name switch
    {
        "ability" => Ability(),
        "mathematics exam" => MathExam(),
        "logical operations" => Logic(),
        _ => throw new ArgumentException($"There is no data set '{name}'.", nameof(name)),
    };

    /// <summary>16 items in four areas, people who answered all. Eight options: from memory of the public-domain item pool.</summary>
    private static ScoredItems Ability() => Read("ability.csv", item => item.Split('.')[0], 1.0 / 8).CompleteOnly();

    /// <summary>13 items of a mathematics exam with five options, which could be left out: guessing is taken as rare. The topics are our reading of the items' names.</summary>
    private static ScoredItems MathExam() => Read(
        "math-exam-14w.csv",
        item => item switch
        {
            "quad" or "deriv" or "elasticity" or "integral" => "analysis",
            "interest" or "annuity" or "payflow" => "finance",
            "matrix" or "planning" or "equations" => "linear algebra",
            _ => "several variables",
        },
        0);

    /// <summary>35 items of a test of logical operations, taken as one topic without guessing.</summary>
    private static ScoredItems Logic() => Read("blot.csv", _ => "logic", 0);

    private static ScoredItems Read(string name, Func<string, string> topic, double guess)
    {
        string[] lines = File.ReadAllLines(Path.Combine(AppContext.BaseDirectory, "Reference", "real", name));
        string[] items = lines[0].Split(',');
        ImmutableArray<bool?[]> answers = [.. lines[1..].Select(l => l.Split(',').Select(x => x.Length == 0 ? null : (bool?)(x == "1")).ToArray())];
        return new ScoredItems([.. items.Select(topic)], [.. items.Select(_ => guess)], answers);
    }
}
