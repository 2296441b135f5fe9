namespace Homestretch.Core.Laboratory;

/// <summary>A world in which policies are tried: who the candidates are, how they learn, what their tests are like, how much time is left.</summary>
/// <param name="Name">Short name, lower case and joined by hyphens.</param>
/// <param name="Title">One line for tables.</param>
/// <param name="Differs">In one sentence, how it differs from what the planner assumes.</param>
public sealed record Scenario(string Name, string Title, string Differs)
{
    /// <summary>Whom the candidates are drawn from.</summary>
    public Population People { get; init; } = new();

    /// <summary>What tests are like.</summary>
    public TestSource Tests { get; init; } = new ShiftedTests();

    /// <summary>How candidates learn and forget.</summary>
    public LearningLaw Learning { get; init; } = new PowerLaw();

    /// <summary>Sessions missed; null where none are.</summary>
    public Absences? Absences { get; init; }

    /// <summary>What tiredness takes; null where nothing.</summary>
    public Fatigue? Fatigue { get; init; }

    /// <summary>Spread of the logarithm of true topic weights about the published ones.</summary>
    public double WeightLogSd { get; init; }

    /// <summary>Only people whose share correct in the diagnostic (or report) lies this near to the cut score, whose pass is in doubt; null for everyone.</summary>
    public double? NearCut { get; init; } = 0.12;

    /// <summary>Fewest days from plan to exam.</summary>
    public int FewestDays { get; init; } = 14;

    /// <summary>Most days from plan to exam.</summary>
    public int MostDays { get; init; } = 21;

    /// <summary>Items of the diagnostic, which is taken on the day before the plan begins.</summary>
    public int DiagnosticItems { get; init; } = 50;

    /// <summary>Whether the evidence at the start is the exam owner's report, with a band of counts for each topic, instead of a diagnostic.</summary>
    public bool BandsOnly { get; init; }

    /// <summary>Items of each quiz.</summary>
    public int QuizItems { get; init; } = 20;

    /// <summary>A quiz over all topics closes every so many days, and policies that use evidence plan anew.</summary>
    public int DaysBetweenQuizzes { get; init; } = 7;

    /// <summary>Whether the world is what the planner assumes it to be.</summary>
    public bool AsAssumed { get; init; }

    /// <summary>Whether two to three weeks are left.</summary>
    public bool WeeksLeft => FewestDays >= 14 && MostDays <= 21;
}
