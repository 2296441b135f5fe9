using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement;

/// <summary>Looks at a test from all sides and says in words whether it deserves trust.</summary>
public static class TestReviewer
{
    // Nunnally (1978) asks for 0.70 in early work and 0.90 where decisions hang on single people; from memory.
    private const double GoodReliability = 0.9;
    private const double FairReliability = 0.7;
    private const double Even = 0.5;

    /// <summary>The review.</summary>
    /// <param name="exam">The exam the test prepares for.</param>
    /// <param name="scores">Everyone's answers; topics are those of <paramref name="exam"/>.</param>
    /// <param name="room">The same people's standings and gains, for the further items; may be empty.</param>
    /// <exception cref="ArgumentException">An item names a topic that the exam does not have.</exception>
    public static TestReview Review(Exam exam, ItemScores scores, IReadOnlyList<CandidateGains> room)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(scores);
        Dictionary<string, ExamTopic> topics = exam.Topics.ToDictionary(t => t.Name, StringComparer.Ordinal);
        if (scores.Items.FirstOrDefault(i => !topics.ContainsKey(i.Topic)) is { } stray)
        {
            throw new ArgumentException($"The exam has no topic '{stray.Topic}'.", nameof(scores));
        }

        ImmutableArray<ItemReport> items = ItemAnalysis.Analyse(scores);
        PartReliability whole = Part(exam.Name, scores, (double)exam.RequiredCorrect / exam.ScoredItems);
        ImmutableArray<PartReliability> sections =
        [
            .. exam.Sections
                .Select((s, index) => (Section: s, Scores: scores.Only(i => topics[i.Topic].SectionIndex == index)))
                .Where(p => p.Scores is not null)
                .Select(p => Part(p.Section.Name, p.Scores!, p.Section.Cut is { } cut ? (double)cut.RequiredCorrect(p.Section.ScoredItems) / p.Section.ScoredItems : null)),
        ];
        ImmutableArray<PartReliability> parts =
        [
            .. exam.Topics
                .Select(t => (t.Name, Scores: scores.Only(i => i.Topic == t.Name)))
                .Where(p => p.Scores is not null)
                .Select(p => Part(p.Name, p.Scores!, null)),
        ];
        ResponseTimeFit? times = ResponseTimeModel.Fit(scores, out string refusal);
        TestReview review = new(
            scores,
            [],
            items,
            whole,
            sections,
            parts,
            Coverage.Of(exam, scores.Items.Select(i => i.Topic)),
            FurtherItems.For(room),
            Dimensions.Of(scores),
            RapidGuessing.Of(scores),
            Sureness.Of(scores),
            times,
            refusal)
        {
            Pace = Paces(exam, scores),
        };
        return review with { Findings = Findings(review) };
    }

    private static ImmutableArray<PersonPace> Paces(Exam exam, ItemScores scores) =>
    [
        .. scores.Persons
            .Select(p => (p.Person, Seconds: TimesOfWork(p)))
            .Where(p => p.Seconds.Length > 0)
            .SelectMany(p => exam.Sections
                .Where(s => s.Minutes is not null)
                .Select(s => new PersonPace(p.Person, s.Name, Pace.Of(p.Seconds, s.ScoredItems + s.UnscoredItems, s.Minutes!.Value)))),
    ];

    // Like a person's pace in a standing: answers given too fast to have been read are no work.
    private static double[] TimesOfWork(PersonAnswers person)
    {
        double? rapidBelow = RapidAnswers.Threshold([.. person.Answers.Where(a => a.Answered).Select(a => a.Seconds).OfType<double>()]);
        return [.. person.Answers.Where(a => a.Reached && !(a.Answered && a.Seconds < rapidBelow)).Select(a => a.Seconds).OfType<double>()];
    }

    private static PartReliability Part(string name, ItemScores scores, double? cutShare)
    {
        ReliabilityReport reliability = Reliability.Of(scores);
        int items = scores.Items.Length;

        // The same share of this test as of the exam; a hair above a whole number is that number.
        ClassificationReport? classification = cutShare is { } share
            ? Classification.Of(scores, Math.Clamp((int)Math.Ceiling((share * items) - 1e-9), 1, items), reliability.Alpha)
            : null;
        return new PartReliability(name, reliability, classification);
    }

    private static ImmutableArray<string> Findings(TestReview review)
    {
        List<string> findings = [Trust(review.Whole.Reliability)];
        if (review.Whole.Classification is { Accuracy: { Known: true, Value: { } accuracy } } decisions)
        {
            findings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"At a mark of {decisions.Cut} of {decisions.Items}, about {accuracy * 100:0} of 100 people are put on the right side of it; on a second such test {decisions.Consistency.Value * 100:0} of 100 would get the same result."));
        }

        ItemReport[] miskeyed = [.. review.Items.Where(i => i.Concerns.Contains(ItemConcern.ProbablyMiskeyed))];
        if (miskeyed.Length > 0)
        {
            findings.Add($"Check the key of {Listed(miskeyed).Replace("Item", "item", StringComparison.Ordinal)} before anything else: {(miskeyed.Length == 1 ? "it is" : "they are")} probably miskeyed.");
        }

        Add(findings, review, ItemConcern.TooEasy, "too easy to tell anything");
        Add(findings, review, ItemConcern.TooHard, "answered no more often than by guessing");
        Add(findings, review, ItemConcern.DoesNotSeparate, "not separating those who know more from those who know less");
        Add(findings, review, ItemConcern.OftenOmitted, "often left blank");
        Add(findings, review, ItemConcern.OftenNotReached, "often not reached in time: they count as wrong, which makes the reliability look better than it is");
        string[] thin = [.. review.Coverage.Where(c => c.Verdict is CoverageVerdict.TooFew or CoverageVerdict.Missing).Select(c => $"{c.Topic.Name} ({c.Items})")];
        findings.Add(thin.Length == 0
            ? "The test covers the blueprint."
            : $"Too few items on {string.Join(", ", thin)}.");
        string[] over = [.. review.Coverage.Where(c => c.Verdict == CoverageVerdict.OverSampled).Select(c => $"{c.Topic.Name} ({c.Items} where {c.Expected} would do)")];
        if (over.Length > 0)
        {
            findings.Add($"More items than needed on {string.Join(", ", over)}.");
        }

        findings.Add(review.Dimensions.Summary);
        if (review.RapidGuessing.Persons.Any(p => p.Timed > 0))
        {
            findings.Add(review.RapidGuessing.Summary);
        }

        string[] slow = [.. review.Pace.Where(p => p.Forecast.FinishChance.Value < Even).Select(p => p.Person).Distinct(StringComparer.Ordinal)];
        if (slow.Length > 0)
        {
            findings.Add($"At the pace of this test {Names(slow)} would not reach the last item of the exam.");
        }

        if (review.Sureness.Persons.Length > 0)
        {
            findings.Add(review.Sureness.Summary);
        }

        return [.. findings];
    }

    private static string Trust(ReliabilityReport whole)
    {
        if (whole.Alpha is not { Known: true, Value: { } alpha })
        {
            return $"Whether the test can be trusted cannot be said: {LowerFirst(whole.Alpha.Refusal!)}";
        }

        string range = whole.AlphaInterval is { } i ? string.Create(CultureInfo.InvariantCulture, $", 95 % range {i.Low:0.00} to {i.High:0.00}") : "";
        string error = string.Create(CultureInfo.InvariantCulture, $"a score of the {whole.Items} items is off by about {whole.StandardError.Value:0.0} either way");
        string word = alpha >= GoodReliability ? "The whole score deserves trust"
            : alpha >= FairReliability ? "The whole score is fair for planning, not for a verdict"
            : "The whole score is rough";
        return string.Create(CultureInfo.InvariantCulture, $"{word} (alpha {alpha:0.00}{range}): {error}.");
    }

    private static void Add(List<string> findings, TestReview review, ItemConcern concern, string words)
    {
        ItemReport[] items = [.. review.Items.Where(i => i.Concerns.Contains(concern))];
        if (items.Length > 0)
        {
            findings.Add($"{Listed(items)} {(items.Length == 1 ? "is" : "are")} {words}.");
        }
    }

    private static string Listed(ItemReport[] items)
        => (items.Length == 1 ? "Item " : "Items ") + string.Join(", ", items.Select(i => i.Item.Label));

    private static string Names(string[] names)
    {
        const int Most = 5;
        return names.Length <= Most ? string.Join(", ", names) : $"{string.Join(", ", names.Take(Most - 1))} and {names.Length - Most + 1} more";
    }

    private static string LowerFirst(string sentence) => char.ToLowerInvariant(sentence[0]) + sentence[1..];
}
