using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Web.Pages;

/// <summary>The answer at the top of a case's page, in three sentences: where you stand, whether you will pass, what to do next.</summary>
public static class Answer
{
    /// <summary>Where you stand.</summary>
    public static string Stand(CandidateReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        int weak = Count(report, Band.Weak);
        int borderline = Count(report, Band.Borderline);
        int strong = Count(report, Band.Strong);
        string score = $"You would answer about {Figures.Count(report.Forecast.ExpectedCorrect)} of the {report.Standing.Exam.ScoredItems} scored items correctly today";
        if (report.Standing.EvidenceItems == 0)
        {
            return score + ", but without any evidence that is only a guess.";
        }

        string[] parts =
        [
            .. strong > 0 ? [$"strong on {strong}"] : Array.Empty<string>(),
            .. borderline > 0 ? [$"borderline on {borderline}"] : Array.Empty<string>(),
            .. weak > 0 ? [$"weak on {weak}"] : Array.Empty<string>(),
        ];
        int topics = report.Standing.Topics.Length;
        return parts.Length == 1 && topics > 1
            ? $"{score}: {parts[0].Replace($" on {topics}", $" on all {topics} topics", StringComparison.Ordinal)}."
            : $"{score}: {Joined(parts)} of {Figures.Plural(topics, "topic")}.";
    }

    /// <summary>Whether you will pass.</summary>
    public static string Pass(CandidateReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        StudyPlan? plan = report.Plan;
        string today = Upper(Figures.OutOf(report.Forecast.PassChance)) + " people in your position would pass";
        if (plan is null || plan.Blocks.IsEmpty)
        {
            return today + " as things are.";
        }

        double then = plan.Outcome(plan.Chosen).PassChance;
        return Figures.OutOf(then) == Figures.OutOf(report.Forecast.PassChance)
            ? $"{today}; with this plan it is {Figures.Percent(then)} rather than {Figures.Percent(report.Forecast.PassChance)}."
            : $"{today} without more study, and {Figures.OutOf(then)} with this plan.";
    }

    /// <summary>What to do next.</summary>
    /// <param name="report">The report.</param>
    /// <param name="now">The moment of asking.</param>
    public static string Next(CandidateReport report, ZonedDateTime now)
    {
        ArgumentNullException.ThrowIfNull(report);
        if (report.Plan is not { } plan)
        {
            return "There is no plan yet.";
        }

        if (plan.ExamDay < now.Date)
        {
            return "This exam day has passed. Choose another below to see what to do until then.";
        }

        if (plan.Blocks.IsEmpty)
        {
            return plan.ExamDay == now.Date
                ? "The exam is today: no more study. Eat, leave early, and read every item to its end."
                : "No study block fits before the exam. Add hours below, or look at another exam day.";
        }

        StudyBlock first = plan.Blocks[0];
        return $"Next: {first.Topic.Name}, {When(first, now)}, {Purpose(first.Purpose)}.";
    }

    /// <summary>"learn it", as the end of a sentence about a block.</summary>
    public static string Purpose(BlockPurpose purpose) => purpose switch
    {
        BlockPurpose.Learn => "to learn from material that teaches",
        BlockPurpose.Practise => "to practise on items with feedback",
        BlockPurpose.Quiz => "for a short quiz",
        _ => "for a light review",
    };

    /// <summary>"today 18:30–19:10", "tomorrow 18:30–19:10", "Sat 28 Nov 09:00–09:50".</summary>
    public static string When(StudyBlock block, ZonedDateTime now)
    {
        ArgumentNullException.ThrowIfNull(block);
        LocalDate date = block.Start.Date;
        string day = Period.DaysBetween(now.Date, date) switch { 0 => "today", 1 => "tomorrow", _ => "on " + Dates.Day(date) };
        return $"{day} {Dates.Span(block.Start, block.End)}";
    }

    private static int Count(CandidateReport report, Band band) => report.Standing.Topics.Count(t => t.Level.Band == band);

    private static string Joined(string[] parts) => parts.Length <= 1 ? string.Concat(parts) : string.Join(", ", parts[..^1]) + " and " + parts[^1];

    private static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
