using System.Collections.Immutable;
using System.Text.Json.Serialization;

using Homestretch.Core.Planning;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>A plan from now to the exam. Times are ISO 8601 with the offset of the person's zone.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Candidate">The person's name as the evidence gives it.</param>
/// <param name="Policy">The policy whose blocks these are: <c>optimised</c> or <c>practice-order</c>.</param>
/// <param name="From">When the plan begins.</param>
/// <param name="ExamDay">The day of the exam, ISO 8601.</param>
/// <param name="Zone">IANA name of the person's zone.</param>
/// <param name="Cut">Correct answers needed in all.</param>
/// <param name="FreeMinutes">Study minutes that the free time could hold under the rules of a humane schedule.</param>
/// <param name="Uncertainty">Where the uncertainty about the number of correct answers after this plan comes from.</param>
/// <param name="Policies">What doing nothing, the practice order and the optimised plan lead to.</param>
/// <param name="Minutes">Topics with study time, in the order of study.</param>
/// <param name="Blocks">Blocks in time order.</param>
/// <param name="LeftAlone">Topics without study time.</param>
/// <param name="Worth">What the next minutes of study on each topic are worth, in the order of the exam.</param>
/// <param name="Notes">What a person should know about this plan.</param>
/// <param name="Basis">The assumptions and calibrated items that the figures rest on.</param>
/// <param name="Study">The study that was done; null where no log was given.</param>
/// <param name="LightFrom">The first day that is kept for light review, ISO 8601.</param>
/// <param name="CalendarDay">The exam day of the first plan of the line; part of what names calendar events.</param>
/// <param name="Levels">Where the person stands, in the order of the exam.</param>
/// <param name="Earlier">Blocks of earlier plans that are not in this one; none where the plan was made from scratch.</param>
/// <param name="Wishes">The coach's wishes that it obeys; null where there were none.</param>
/// <param name="Revision">What it changes against the earlier plan; null where it was made from scratch.</param>
/// <param name="Resources">What the catalogue of resources lacks for the plan; null where none was given.</param>
public sealed record PlanDocument(
    string Exam,
    string Candidate,
    string Policy,
    string From,
    string ExamDay,
    string Zone,
    int Cut,
    int FreeMinutes,
    UncertaintyFields Uncertainty,
    PoliciesFields Policies,
    ImmutableArray<TopicMinutesFields> Minutes,
    ImmutableArray<BlockFields> Blocks,
    ImmutableArray<LeftAloneFields> LeftAlone,
    ImmutableArray<WorthFields> Worth,
    ImmutableArray<string> Notes,
    BasisFields Basis,
    StudyFields? Study,
    string LightFrom,
    string CalendarDay,
    ImmutableArray<LevelFields> Levels,
    ImmutableArray<EarlierBlockFields> Earlier,
    RevisionFields? Revision,
    WishesFields? Wishes,
    ResourcesFields? Resources)
{
    /// <summary>How every plan document writes times: RFC 3339 without its "Z", so that a zero offset is written like any other.</summary>
    internal static readonly OffsetDateTimePattern TimePattern = OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:sso<+HH:mm>");

    /// <summary>The pass chance with the plan, 0 to 1.</summary>
    [JsonIgnore]
    public double PassChance => (Policy == Words.Of(Core.Planning.Policy.PracticeOrder) ? Policies.PracticeOrder : Policies.Optimised).PassChance;

    /// <summary>The pass chance without more study from then on, 0 to 1.</summary>
    [JsonIgnore]
    public double PassChanceWithoutStudy => Policies.None.PassChance;

    /// <summary>The document of a plan.</summary>
    /// <exception cref="ArgumentException">The report holds no plan.</exception>
    public static PlanDocument Of(CandidateReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        StudyPlan plan = report.Plan ?? throw new ArgumentException("The report holds no plan.", nameof(report));
        return new(
            report.Standing.Exam.Name,
            report.Candidate,
            Words.Of(plan.Chosen),
            Time(plan.From),
            LocalDatePattern.Iso.Format(plan.ExamDay),
            plan.Zone.Id,
            report.Forecast.Cut,
            plan.FreeMinutes,
            UncertaintyFields.Of(plan.Uncertainty),
            new(
                PolicyFields.Of(plan.Outcome(Core.Planning.Policy.None)),
                PolicyFields.Of(plan.Outcome(Core.Planning.Policy.PracticeOrder)),
                PolicyFields.Of(plan.Outcome(Core.Planning.Policy.Optimised))),
            [.. plan.Minutes.Select(m => TopicMinutesFields.Of(m, report.ChangeOf(m.Topic)))],
            [.. plan.Blocks.Select((b, i) => new BlockFields(b.Id, Time(b.Start), Time(b.End), b.Minutes, b.Topic.Name, b.Topic.Section.Name, Words.Of(b.Purpose), b.Reason, report.Changes?.Blocks[i].Sentence, report.Material is { } m ? [.. m.Blocks[i].Select(MaterialFields.Of)] : null))],
            [.. plan.LeftAlone.Select(l => new LeftAloneFields(l.Topic.Name, l.Topic.Section.Name, l.Reason, report.ChangeOf(l.Topic)))],
            [.. report.Worth.Select(WorthFields.Of)],
            plan.Notes,
            BasisFields.Of(report.Basis, report.Standing),
            StudyFields.Of(report.Study, report.Standing.Exam),
            LocalDatePattern.Iso.Format(plan.LightFrom),
            LocalDatePattern.Iso.Format(plan.CalendarDay),
            [.. report.Standing.Topics.Select(t => new LevelFields(t.Topic.Name, t.Topic.Section.Name, t.Level.Mean, Words.Of(t.Level.Band)))],
            [.. plan.Revision?.Earlier.Select(b => EarlierBlockFields.Of(b, plan.Zone)) ?? []],
            plan.Revision is { } change ? RevisionFields.Of(plan, change) : null,
            plan.Wishes is { } wishes ? WishesFields.Of(wishes, plan.Zone) : null,
            report.Material is { } material ? ResourcesFields.Of(material, report.Standing.Exam) : null);
    }

    /// <summary>A time as every plan document writes it.</summary>
    internal static string Time(ZonedDateTime time) => TimePattern.Format(time.ToOffsetDateTime());

    /// <summary>Reads a time of a plan document.</summary>
    /// <exception cref="UnparsableValueException">The text is none.</exception>
    public static OffsetDateTime Time(string text) => TimePattern.Parse(text).Value;
}
