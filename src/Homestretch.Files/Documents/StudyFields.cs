using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Files.StudyLogs;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>The study that was done, up to the day spoken of, and what it changes.</summary>
/// <param name="Sessions">Sessions in the log.</param>
/// <param name="Minutes">Minutes in all.</param>
/// <param name="Topics">Topics that were studied, in the order of the exam.</param>
/// <param name="Now">What the exam would bring if it were sat on that day.</param>
/// <param name="Without">The same had there been no study.</param>
/// <param name="AtAssumedRate">The same if this person learned exactly as fast as was assumed; null where no test has been taken after study.</param>
/// <param name="Rate">How fast this person learns; null where there was no study.</param>
/// <param name="Sentences">All this in words.</param>
public sealed record StudyFields(
    int Sessions,
    int Minutes,
    ImmutableArray<TopicStudyFields> Topics,
    OutcomeFields Now,
    OutcomeFields Without,
    OutcomeFields? AtAssumedRate,
    RateFields? Rate,
    ImmutableArray<string> Sentences)
{
    internal static StudyFields? Of(StudyReport? report, Exam exam)
        => report is null
            ? null
            : new(
                report.Done.Sessions,
                report.Done.Minutes,
                [.. report.Done.Topics.Select(t => new TopicStudyFields(t.Topic.Name, t.Topic.Section.Name, t.Minutes, LocalDatePattern.Iso.Format(t.Last), t.ScoreGain))],
                Outcome(report.Done.Now),
                Outcome(report.Done.Without),
                report.Done.AtAssumedRate is { } assumed ? Outcome(assumed) : null,
                report.Rate is { } rate ? RateFields.Of(rate, report.Basis, exam) : null,
                report.Sentences(exam));

    private static OutcomeFields Outcome(ScoreOutcome outcome) => new(outcome.PassChance, outcome.ExpectedCorrect);
}
