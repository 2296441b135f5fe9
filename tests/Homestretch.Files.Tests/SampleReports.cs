using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Files.Tests;

/// <summary>Reports on invented people and answers, computed as for anyone: for pictures and handouts, the hard cases among them.</summary>
public static class SampleReports
{
    /// <summary>Two sections, eight topics of very different weight, three weeks left.</summary>
    public static CandidateReport ThreeWeeks { get; } = Build(
        "Mara Venn",
        [
            new("Care of collections", 75, 65, [new("Cataloguing", 23, 7, 11), new("Preventive conservation", 21, 5, 10), new("Handling and packing", 18, 6, 8), new("Emergency plans", 13, 2, 6)]),
            new("Documents and law", 55, 62, [new("Loans and insurance", 21, 4, 8), new("Title and ethics", 15, 2, 5), new("Acquisition and disposal", 11, 4, 5), new("Copyright and images", 8, 1, 4)]),
        ],
        OverallRule.EverySection,
        days: 21,
        eveningMinutes: 100);

    /// <summary>One section, three topics, one cut score for the total, two days left.</summary>
    public static CandidateReport ThreeTopics { get; } = Build(
        "Ines Harrow",
        [new("Registrar's certificate", 40, null, [new("Cataloguing", 20, 14, 20), new("Handling and packing", 12, 8, 12), new("Loans and insurance", 8, 30, 36)])],
        OverallRule.Total,
        days: 2,
        eveningMinutes: 60);

    /// <summary>Twelve topics in two sections with section minimums, long names, ninety days and about two hundred blocks.</summary>
    public static CandidateReport TwelveTopics { get; } = Build(
        "Tobias Okell",
        [
            new("Objects in the building", 90, 55,
            [
                new("Cataloguing, numbering and marking of objects", 24, 6, 12), new("Preventive conservation", 18, 7, 11), new("Handling and packing", 16, 7, 10),
                new("Storage and housekeeping", 14, 1, 6), new("Emergency plans", 10, 3, 5), new("Pests", 8, 0, 4),
            ]),
            new("Objects on the move, and the papers that go with them", 60, 55,
            [
                new("Loans and insurance", 18, 5, 8), new("Couriers and transport", 12, 3, 6), new("Title and ethics", 10, 5, 6),
                new("Acquisition and disposal", 9, 4, 5), new("Copyright and images", 7, 1, 4), new("Customs", 4, 0, 3),
            ]),
        ],
        OverallRule.TotalWithSectionMinimums,
        days: 90,
        eveningMinutes: 140);

    /// <summary>Thirty topics in one section.</summary>
    public static CandidateReport ThirtyTopics { get; } = Build(
        "Odo Fairlight",
        [new("Everything", 200, 60, [.. Enumerable.Range(0, 30).Select(i => new SampleTopic($"Topic {i + 1} of the long list: {Nouns[i % Nouns.Length]}", i < 10 ? 10 : 5, 2 + (i / 4), 12))])],
        OverallRule.EverySection,
        days: 40,
        eveningMinutes: 60);

    /// <summary>No answer yet: nothing is settled, no plan was asked for.</summary>
    public static CandidateReport NothingKnown { get; } = Build(
        "Una Brandt",
        [
            new("Care of collections", 75, 65, [new("Cataloguing", 23, 0, 0), new("Preventive conservation", 21, 0, 0), new("Handling and packing", 18, 0, 0), new("Emergency plans", 13, 0, 0)]),
            new("Documents and law", 55, 62, [new("Loans and insurance", 21, 0, 0), new("Title and ethics", 15, 0, 0), new("Acquisition and disposal", 11, 0, 0), new("Copyright and images", 8, 0, 0)]),
        ],
        OverallRule.EverySection,
        days: null,
        eveningMinutes: 0);

    /// <summary>A plan without a single block: no free time before the exam.</summary>
    public static CandidateReport NoFreeTime { get; } = Build(
        "Per Nilsen",
        [new("Care of collections", 75, 65, [new("Cataloguing", 40, 8, 14), new("Preventive conservation", 35, 7, 12)])],
        OverallRule.EverySection,
        days: 1,
        eveningMinutes: 0);

    /// <summary>Names that would be markup if they were not encoded, and characters that no markup allows.</summary>
    public static CandidateReport Hostile { get; } = Build(
        "<script>alert('x')</script> & \"Co\"\u0001 \uD800",
        [new("A & B <b>", 20, 50, [new("</title><script>alert(1)</script>", 10, 3, 6), new("\"><img src=x onerror=alert(1)> '", 6, 1, 4), new("Ünïcödé — 漢字 𝔘", 4, 1, 2)])],
        OverallRule.EverySection,
        days: 7,
        eveningMinutes: 60);

    /// <summary>All of them.</summary>
    public static IEnumerable<CandidateReport> All => [ThreeWeeks, ThreeTopics, TwelveTopics, ThirtyTopics, NothingKnown, NoFreeTime, Hostile];

    /// <summary>Usable free time behind a report's plan.</summary>
    public static ImmutableArray<Slot> Slots(CandidateReport report, int eveningMinutes)
        => SlotFinder.Find(Evenings(eveningMinutes), [], report.Plan!.From, report.Plan.ExamDay).Slots;

    private static string[] Nouns => ["labels", "ledgers and accession registers", "light", "humidity", "crates", "keys"];

    private static CandidateReport Build(string candidate, SampleSection[] sections, OverallRule rule, int? days, int eveningMinutes)
    {
        Exam exam = new(
            "Certificate for Registrars of Small Museums",
            "2026",
            new FigureSource("Candidate handbook, Guild of Small-Museum Registrars", new LocalDate(2026, 2, 1), "chapter 3"),
            [
                .. sections.Select(s => new Section(
                    s.Name,
                    s.Items,
                    5,
                    100,
                    4,
                    s.CutPercent is { } percent ? new PercentCut(percent) : null,
                    [.. s.Topics.Select(t => new Topic(t.Name, Weight.Items(t.Items), t.Items, []))])),
            ],
            rule,
            rule == OverallRule.EverySection ? null : new PercentCut(65),
            new RetakeRule(45, 3),
            BandEdges.Default);
        ImmutableArray<Observation> answers = [.. sections.SelectMany(s => s.Topics).Where(t => t.Answered > 0).Select(t => TopicCount.Exact(t.Name, t.Correct, t.Answered))];
        LocalDate today = new(2026, 11, 25);
        ImmutableArray<Attempt> attempts = answers.IsEmpty ? [] : [new Attempt(candidate, "Diagnostic", AttemptKind.Diagnostic, today.PlusDays(-3), answers)];
        StandingBasis basis = StandingBasis.Of(exam, attempts);
        CandidateStanding standing = basis.Standing(attempts, today);
        ZonedDateTime from = (today + new LocalTime(8, 0)).InZoneLeniently(London);
        return new CandidateReport(
            candidate,
            standing,
            basis,
            ForecastCalculator.Calculate(standing),
            WorthCalculator.NextMinutes(standing),
            days is null ? null : Planner.Plan(standing, Evenings(eveningMinutes), [], from, today.PlusDays(days.Value), Policy.Optimised));
    }

    private static DateTimeZone London => DateTimeZoneProviders.Tzdb["Europe/London"];

    /// <summary>Every evening but Saturday's.</summary>
    /// <summary>So many minutes every evening.</summary>
    internal static FreeTime Evenings(int minutes) => new(
        London,
        minutes == 0
            ? []
            : [.. Enum.GetValues<IsoDayOfWeek>().Where(d => d is not (IsoDayOfWeek.None or IsoDayOfWeek.Saturday)).Select(d => new WeeklyWindow(d, new LocalTime(18, 0), new LocalTime(18, 0).PlusMinutes(minutes)))],
        [],
        []);

    private sealed record SampleSection(string Name, int Items, int? CutPercent, SampleTopic[] Topics);

    private sealed record SampleTopic(string Name, int Items, int Correct, int Answered);
}
