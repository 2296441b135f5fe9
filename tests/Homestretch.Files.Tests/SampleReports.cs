using System.Collections.Immutable;
using System.Runtime.CompilerServices;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Files.Tests;

/// <summary>Invented reports whose parts agree with each other: expected scores are the sums of the topics', distributions
/// are binomial convolutions, gains follow minutes. They exercise pictures and handouts; they do not check the model.</summary>
public static class SampleReports
{
    /// <summary>Two sections, eight topics of very different weight, three weeks left.</summary>
    public static CandidateReport ThreeWeeks { get; } = Build(
        "Mara Venn",
        [
            ("Care of collections", 75, 65,
            [
                new("Cataloguing", 23, 0.62, 0.09), new("Preventive conservation", 21, 0.55, 0.1), new("Handling and packing", 18, 0.71, 0.09), new("Emergency plans", 13, 0.44, 0.12),
            ]),
            ("Documents and law", 55, 62,
            [
                new("Loans and insurance", 21, 0.57, 0.1), new("Title and ethics", 15, 0.48, 0.12), new("Acquisition and disposal", 11, 0.78, 0.1), new("Copyright and images", 8, 0.41, 0.15),
            ]),
        ],
        OverallRule.EverySection,
        studied: 6,
        days: 21,
        perDay: 2);

    /// <summary>One section, three topics, one cut score for the total.</summary>
    public static CandidateReport ThreeTopics { get; } = Build(
        "Ines Harrow",
        [("Registrar's certificate", 40, null, [new("Cataloguing", 20, 0.72, 0.06), new("Handling and packing", 12, 0.66, 0.08), new("Loans and insurance", 8, 0.81, 0.07)])],
        OverallRule.Total,
        studied: 1,
        days: 2,
        perDay: 1);

    /// <summary>Twelve topics in two sections with section minimums, long names, ninety days of study.</summary>
    public static CandidateReport TwelveTopics { get; } = Build(
        "Tobias Okell",
        [
            ("Objects in the building", 90, 55,
            [
                new("Cataloguing, numbering and marking of objects", 24, 0.52, 0.08), new("Preventive conservation", 18, 0.63, 0.08), new("Handling and packing", 16, 0.69, 0.1),
                new("Storage and housekeeping", 14, 0.35, 0.1), new("Emergency plans", 10, 0.58, 0.12), new("Pests", 8, 0.27, 0.02),
            ]),
            ("Objects on the move, and the papers that go with them", 60, 55,
            [
                new("Loans and insurance", 18, 0.61, 0.1), new("Couriers and transport", 12, 0.49, 0.1), new("Title and ethics", 10, 0.74, 0.09),
                new("Acquisition and disposal", 9, 0.66, 0.1), new("Copyright and images", 7, 0.45, 0.14), new("Customs", 4, 0.31, 0.18),
            ]),
        ],
        OverallRule.TotalWithSectionMinimums,
        studied: 9,
        days: 90,
        perDay: 2);

    /// <summary>Thirty topics in one section.</summary>
    public static CandidateReport ThirtyTopics { get; } = Build(
        "Odo Fairlight",
        [("Everything", 200, 60, [.. Enumerable.Range(0, 30).Select(i => new SampleTopic($"Topic {i + 1} of the long list: {Nouns[i % Nouns.Length]}", i < 10 ? 10 : 5, 0.3 + (0.02 * i), 0.1))])],
        OverallRule.EverySection,
        studied: 20,
        days: 40,
        perDay: 3);

    /// <summary>No answer yet: every topic is at the default, nothing is settled, no plan was asked for.</summary>
    public static CandidateReport NothingKnown { get; } = Build(
        "Una Brandt",
        [
            ("Care of collections", 75, 65, [new("Cataloguing", 23, 0.6, 0.2), new("Preventive conservation", 21, 0.6, 0.2), new("Handling and packing", 18, 0.6, 0.2), new("Emergency plans", 13, 0.6, 0.2)]),
            ("Documents and law", 55, 62, [new("Loans and insurance", 21, 0.6, 0.2), new("Title and ethics", 15, 0.6, 0.2), new("Acquisition and disposal", 11, 0.6, 0.2), new("Copyright and images", 8, 0.6, 0.2)]),
        ],
        OverallRule.EverySection,
        studied: 0,
        days: 0,
        perDay: 0,
        evidence: 0);

    /// <summary>A plan without a single block: no free time before the exam.</summary>
    public static CandidateReport NoFreeTime { get; } = Build(
        "Per Nilsen",
        [("Care of collections", 75, 65, [new("Cataloguing", 40, 0.6, 0.1), new("Preventive conservation", 35, 0.58, 0.1)])],
        OverallRule.EverySection,
        studied: 0,
        days: 1,
        perDay: 0);

    /// <summary>Names that would be markup if they were not encoded.</summary>
    public static CandidateReport Hostile { get; } = Build(
        "<script>alert('x')</script> & \"Co\"\u0001",
        [("A & B <b>", 20, 50, [new("</title><script>alert(1)</script>", 10, 0.6, 0.1), new("\"><img src=x onerror=alert(1)> '", 6, 0.4, 0.1), new("Ünïcödé — 漢字 𝔘 \uD800", 4, 0.5, 0.1)])],
        OverallRule.EverySection,
        studied: 2,
        days: 7,
        perDay: 1);

    /// <summary>All of them.</summary>
    public static IEnumerable<CandidateReport> All => [ThreeWeeks, ThreeTopics, TwelveTopics, ThirtyTopics, NothingKnown, NoFreeTime, Hostile];

    private static string[] Nouns => ["labels", "ledgers and accession registers", "light", "humidity", "crates", "keys"];

    private static CandidateReport Build(
        string candidate,
        (string Name, int Items, int? CutPercent, SampleTopic[] Topics)[] sections,
        OverallRule rule,
        int studied,
        int days,
        int perDay,
        int evidence = 52)
    {
        Exam exam = new(
            "Certificate for Registrars of Small Museums",
            "2026",
            new FigureSource("Candidate handbook, Guild of Small-Museum Registrars", new LocalDate(2026, 2, 1), "chapter 3"),
            [.. sections.Select(s => new Section(s.Name, s.Items, 5, 100, 4, s.CutPercent is { } p ? new PercentCut(p) : null, [.. s.Topics.Select(t => new Topic(t.Name, Weight.Items(t.Items), t.Items, []))]))],
            rule,
            rule == OverallRule.EverySection ? null : new PercentCut(65),
            new RetakeRule(45, 3),
            BandEdges.Default);
        SampleTopic[] topics = [.. sections.SelectMany(s => s.Topics)];
        LocalDate asOf = new(2026, 11, 25);
        ImmutableArray<TopicStanding> standings =
        [
            .. exam.Topics.Select((t, i) =>
            {
                Level level = LevelOf(topics[i].Mean, topics[i].Deviation, exam.Bands);
                return new TopicStanding(t, evidence == 0 ? 0 : Math.Max(1, t.Items / 3), level, level.Settled ? 0 : 14, []);
            }),
        ];
        ImmutableArray<SectionStanding> sectionStandings =
        [
            .. exam.Sections.Select((s, i) => new SectionStanding(
                s,
                evidence / exam.Sections.Length,
                LevelOf(standings.Where(t => t.Topic.SectionIndex == i).Sum(t => t.Level.Mean * t.Topic.Items) / s.ScoredItems, evidence == 0 ? 0.15 : 0.06, exam.Bands))),
        ];
        AbilityPosterior posterior = (AbilityPosterior)RuntimeHelpers.GetUninitializedObject(typeof(AbilityPosterior));
        CandidateStanding standing = new(exam, asOf, evidence, standings, sectionStandings, posterior);
        double[] means = [.. topics.Select(t => t.Mean)];
        Forecast forecast = ForecastOf(exam, means, evidence == 0 ? 0.15 : 0.06);
        ImmutableArray<TopicWorth> worth = [.. exam.Topics.Select((t, i) => new TopicWorth(t, 30, t.Items * Gain(means[i], 0.5), PassGain(exam, means, i, Gain(means[i], 0.5))))];
        StudyPlan? plan = days == 0 ? null : PlanOf(exam, means, forecast, studied, days, perDay, asOf);
        return new CandidateReport(candidate, standing, forecast, worth, plan);
    }

    private static double Gain(double mean, double hours) => 0.12 * hours * mean * (1 - mean) * (mean > 0.75 ? 0.2 : 1);

    private static double PassGain(Exam exam, double[] means, int topic, double gain)
    {
        double[] more = [.. means];
        more[topic] += gain;
        return ForecastOf(exam, more, 0.06).PassChance - ForecastOf(exam, means, 0.06).PassChance;
    }

    private static StudyPlan PlanOf(Exam exam, double[] means, Forecast forecast, int studied, int days, int perDay, LocalDate asOf)
    {
        DateTimeZone zone = DateTimeZoneProviders.Tzdb["Europe/London"];
        LocalDate examDay = asOf.PlusDays(days);
        int[] order = [.. Enumerable.Range(0, means.Length).OrderByDescending(i => exam.Topics[i].Items * Gain(means[i], 1)).Take(studied)];
        ImmutableArray<StudyBlock>.Builder blocks = ImmutableArray.CreateBuilder<StudyBlock>();
        int made = 0;
        for (int day = 0; day < days && studied > 0; day++)
        {
            for (int i = 0; i < perDay && day % 7 != 3; i++)
            {
                int topic = order[(made / 4) % order.Length];
                ZonedDateTime start = (asOf.PlusDays(day) + new LocalTime(18, 0).PlusMinutes(50 * i)).InZoneLeniently(zone);
                BlockPurpose purpose = day >= days - 2 ? BlockPurpose.Review : (BlockPurpose)(made % 3);
                blocks.Add(new StudyBlock($"{topic}-{made}", start, start.PlusMinutes(40), exam.Topics[topic], purpose, "Near the middle of the scale and heavy: an hour here adds most."));
                made++;
            }
        }

        double[] after = [.. means];
        ImmutableArray<TopicMinutes> minutes =
        [
            .. order.Select((t, i) => (Topic: t, Order: i + 1, Minutes: blocks.Where(b => b.Topic == exam.Topics[t]).Sum(b => b.Minutes))).Where(t => t.Minutes > 0).Select(t =>
            {
                double gain = Math.Min(Gain(means[t.Topic], t.Minutes / 60.0), 0.95 - means[t.Topic]);
                after[t.Topic] += gain;
                return new TopicMinutes(exam.Topics[t.Topic], t.Minutes, t.Order, gain * exam.Topics[t.Topic].Items, "Many items, and you are close to knowing them: an hour here adds more than anywhere else.");
            }),
        ];
        Forecast then = ForecastOf(exam, after, 0.06);
        return new StudyPlan(
            Policy.Optimised,
            (asOf + new LocalTime(8, 0)).InZoneLeniently(zone),
            examDay,
            zone,
            [
                new(Policy.None, forecast.PassChance, forecast.ExpectedCorrect, 0),
                new(Policy.PracticeOrder, forecast.PassChance + ((then.PassChance - forecast.PassChance) * 0.8), forecast.ExpectedCorrect + ((then.ExpectedCorrect - forecast.ExpectedCorrect) * 0.85), blocks.Sum(b => b.Minutes)),
                new(Policy.Optimised, then.PassChance, then.ExpectedCorrect, blocks.Sum(b => b.Minutes)),
            ],
            minutes,
            [.. Enumerable.Range(0, means.Length).Where(i => !minutes.Any(m => m.Topic == exam.Topics[i])).Select(i => new LeftAlone(exam.Topics[i], means[i] > 0.7 ? "You know this well; more study would hardly add to your score." : "Few items: an hour here adds less than an hour anywhere else."))],
            blocks.ToImmutable(),
            blocks.Sum(b => b.Minutes) + 120,
            studied == 0 ? ["There is no free time before the exam, so there is nothing to plan."] : []);
    }

    private static Level LevelOf(double mean, double deviation, BandEdges edges)
    {
        double weak = Normal((edges.WeakBelow - mean) / deviation);
        double strong = 1 - Normal((edges.StrongFrom - mean) / deviation);
        Band band = mean < edges.WeakBelow ? Band.Weak : mean < edges.StrongFrom ? Band.Borderline : Band.Strong;
        return new Level(mean, Math.Max(0.02, mean - (1.645 * deviation)), Math.Min(0.98, mean + (1.645 * deviation)), band, new BandChances(weak, 1 - weak - strong, strong));
    }

    /// <summary>A mixture over five shared shifts of all topics, binomial given the shift.</summary>
    private static Forecast ForecastOf(Exam exam, double[] means, double deviation)
    {
        double[] shifts = [-2, -1, 0, 1, 2];
        double[] weights = [0.06, 0.24, 0.4, 0.24, 0.06];
        double[] whole = new double[exam.ScoredItems + 1];
        double[][] parts = [.. exam.Sections.Select(s => new double[s.ScoredItems + 1])];
        double[] sectionPass = new double[exam.Sections.Length];
        double pass = 0;
        int required = exam.RequiredCorrect;
        for (int k = 0; k < shifts.Length; k++)
        {
            double[] total = [1];
            double all = 1;
            int index = 0;
            for (int s = 0; s < exam.Sections.Length; s++)
            {
                double[] part = [1];
                foreach (Topic topic in exam.Sections[s].Topics)
                {
                    double p = Math.Clamp(means[index++] + (shifts[k] * deviation), 0.02, 0.98);
                    for (int i = 0; i < topic.Items; i++)
                    {
                        part = Convolve(part, [1 - p, p]);
                    }
                }

                total = Convolve(total, part);
                int cut = exam.Sections[s].Cut?.RequiredCorrect(exam.Sections[s].ScoredItems) ?? 0;
                double reach = part.Skip(cut).Sum();
                all *= exam.Rule == OverallRule.Total ? 1 : reach;
                sectionPass[s] += weights[k] * reach;
                Add(parts[s], part, weights[k]);
            }

            pass += weights[k] * (exam.Rule == OverallRule.EverySection ? all : Math.Min(all, total.Skip(required).Sum()));
            Add(whole, total, weights[k]);
        }

        return new Forecast(
            exam,
            pass,
            Mean(whole),
            required,
            [.. whole],
            [
                .. exam.Sections.Select((s, i) => new SectionForecast(
                    s,
                    s.Cut is null ? null : sectionPass[i],
                    Mean(parts[i]),
                    s.Cut?.RequiredCorrect(s.ScoredItems),
                    [.. parts[i]])),
            ],
            [.. exam.Topics.Select((t, i) => new TopicForecast(t, t.Items * means[i], (int)Math.Ceiling(0.65 * t.Items)))]);
    }

    private static double Mean(double[] distribution) => distribution.Select((p, i) => p * i).Sum();

    private static void Add(double[] to, double[] from, double weight)
    {
        for (int i = 0; i < to.Length; i++)
        {
            to[i] += from[i] * weight;
        }
    }

    private static double[] Convolve(double[] a, double[] b)
    {
        double[] sum = new double[a.Length + b.Length - 1];
        for (int i = 0; i < a.Length; i++)
        {
            for (int j = 0; j < b.Length; j++)
            {
                sum[i + j] += a[i] * b[j];
            }
        }

        return sum;
    }

    // Abramowitz & Stegun 26.2.17, from memory; good enough for invented figures.
    private static double Normal(double z)
    {
        double t = 1 / (1 + (0.2316419 * Math.Abs(z)));
        double tail = Math.Exp(-z * z / 2) / Math.Sqrt(2 * Math.PI) * t * (0.319381530 + (t * (-0.356563782 + (t * (1.781477937 + (t * (-1.821255978 + (t * 1.330274429))))))));
        return z > 0 ? 1 - tail : tail;
    }

    private sealed record SampleTopic(string Name, int Items, double Mean, double Deviation);
}
