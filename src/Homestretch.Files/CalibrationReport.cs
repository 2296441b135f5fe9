using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Files.Pictures;

namespace Homestretch.Files;

/// <summary>How well pass chances held: what is printed, drawn and handed to programs.</summary>
public sealed record CalibrationReport
{
    // A row with fewer people than this is no example to put at the top.
    private const int TellingPeople = 10;
    private const double LeastTelling = 0.29;
    private const double MostTelling = 0.91;
    private const double Even = 0.5;
    private const int MostNames = 5;

    private CalibrationReport(Exam exam, string test, CalibrationTable table, OutcomeStudyResult? outcomes, SplitStudyResult? split)
    {
        Exam = exam;
        Test = test;
        Table = table;
        Outcomes = outcomes;
        Split = split;
        Findings = [.. outcomes is null ? OfSplit() : OfOutcomes()];
    }

    /// <summary>The exam.</summary>
    public Exam Exam { get; }

    /// <summary>The outcome's name, or the name of the test that was split.</summary>
    public string Test { get; }

    /// <summary>The comparison.</summary>
    public CalibrationTable Table { get; }

    /// <summary>Where outcomes were compared, the people; otherwise null.</summary>
    public OutcomeStudyResult? Outcomes { get; }

    /// <summary>Where one test was split, how; otherwise null.</summary>
    public SplitStudyResult? Split { get; }

    /// <summary>What a coach should know, the most important first, in sentences.</summary>
    public ImmutableArray<string> Findings { get; }

    /// <summary>The report of forecasts against outcomes.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="test">What counted as the outcome.</param>
    /// <param name="outcomes">A comparison of enough people to have a table.</param>
    /// <exception cref="ArgumentException">It has none.</exception>
    public static CalibrationReport Of(Exam exam, string test, OutcomeStudyResult outcomes)
    {
        ArgumentNullException.ThrowIfNull(outcomes);
        return new(exam, test, outcomes.Table ?? throw new ArgumentException("Too few people.", nameof(outcomes)), outcomes, null);
    }

    /// <summary>The report of a split test.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="test">The test's name.</param>
    /// <param name="split">What the study found, for the exam's own rule.</param>
    public static CalibrationReport Of(Exam exam, string test, SplitStudyResult split)
    {
        ArgumentNullException.ThrowIfNull(split);
        return new(exam, test, split.Cuts[0].Forecast, null, split);
    }

    /// <summary>Why people were left out, as a sentence; null where nobody was.</summary>
    /// <param name="leftOut">The people.</param>
    public static string? WhyLeftOut(ImmutableArray<LeftOutPerson> leftOut)
        => leftOut.IsEmpty ? null : "Left out: " + string.Join("; ", leftOut.GroupBy(p => (p.Reason, About: p.Reason == LeftOutReason.Incomplete ? p.Detail : "")).Select(g => $"{Named(g)}, {Why(g.Key.Reason, g.Key.About)}")) + ".";

    private static string Why(LeftOutReason reason, string about) => reason switch
    {
        LeftOutReason.NoOutcome => "without a result that counts as the outcome",
        LeftOutReason.NothingBefore => "with nothing dated before the outcome",
        LeftOutReason.Incomplete => $"whose result says nothing of '{about}', so that nobody can say whether it passed",
        LeftOutReason.Ambiguous => "whose report gives bands that allow both a pass and a fail",
        _ => throw new ArgumentOutOfRangeException(nameof(reason)),
    };

    private static string Named(IEnumerable<LeftOutPerson> people)
    {
        string[] names = [.. people.Select(p => p.Candidate)];
        string more = names.Length > MostNames ? string.Create(CultureInfo.InvariantCulture, $" and {names.Length - MostNames} more") : "";
        return string.Join(", ", names.Take(MostNames)) + more;
    }

    private IEnumerable<string> OfOutcomes()
    {
        OutcomeStudyResult outcomes = Outcomes!;
        CalibrationBin[] telling = Telling();
        yield return telling.Length == 0
            ? Halves(outcomes)
            : $"Of the {telling[0].Count} people given about {Figures.Percent(telling[0].MeanForecast)}, {Passed(telling[0])} passed ({Figures.Share(telling[0].Observed)}).";
        string range = string.Create(CultureInfo.InvariantCulture, $"{outcomes.LowPasses} to {outcomes.HighPasses}");
        string verdict = outcomes.Passes > outcomes.HighPasses ? "more passed than the forecasts allow for: they were too low"
            : outcomes.Passes < outcomes.LowPasses ? "fewer passed than the forecasts allow for: they were too high"
            : "the difference is no more than chance gives";
        yield return $"{outcomes.People.Length} people: {outcomes.Passes} passed, {Figures.Count(outcomes.ExpectedPasses)} were expected ({range} nine times of ten if the forecasts are right); {verdict}.";
        yield return Scores(null);
        yield return outcomes.Basis.Reason;
        if (WhyLeftOut(outcomes.LeftOut) is { } leftOut)
        {
            yield return leftOut;
        }

        if (outcomes.OtherLengths > 0)
        {
            yield return $"{Figures.Plural(outcomes.OtherLengths, "outcome")} had other numbers of items than the exam; there the mark is the same share of the items, and the forecast is for as many items.";
        }

        yield return "Study between the last test and the outcome is not in the forecasts: after good study, more people pass than was forecast.";
    }

    private IEnumerable<string> OfSplit()
    {
        SplitStudyResult split = Split!;
        CalibrationBin row = Telling() is [var first, ..] ? first : Table.Bins.MaxBy(b => b.Count);
        yield return $"Of the people given about {Figures.Percent(row.MeanForecast)} after one half of the test, {Figures.Share(row.Observed)} passed the other half.";
        yield return $"{Figures.Plural(split.Options.Splits, "random split")} of {split.Items} items, {split.People} people, {Figures.Plural(split.Forecasts, "forecast")}: "
            + $"{Figures.Share(Table.MeanForecast)} were expected to pass, {Figures.Share(Table.BaseRate)} did; "
            + $"forecast and share that passed differ by {Figures.Points(Table.CalibrationError).TrimStart('+')} on average.";
        yield return $"{Figures.Share(split.Coverage)} of the scores fell inside their 90 % range.";
        yield return Scores(split.Cuts[0].PlainShare.BrierScore);
        yield return (split.PriorsLearned, split.Options.ExamSatBefore) switch
        {
            (true, true) => "In each split, what people of this kind are like, and how hard the exam half is, was learned from half of the people and used for the other half.",
            (true, false) => "In each split, what people of this kind are like was learned from half of the people, by the diagnostic half alone, and used for the other half of the people: how hard the exam half is was not known.",
            _ => $"With fewer than {SplitStudy.FewestToLearn} people nothing was learned from them: the forecasts rest on the program's usual assumptions.",
        };
    }

    private string Scores(double? plainShare)
    {
        string others = plainShare is { } plain ? $"the plain share correct {Score(plain)}, " : "";
        bool better = Table.BrierScore < Math.Min(Table.BaseRateBrierScore, plainShare ?? 1);
        return $"Brier score {Score(Table.BrierScore)} (0 is perfect); {others}always saying the share that passed ({Figures.Share(Table.BaseRate)}) {Score(Table.BaseRateBrierScore)}: "
            + (better ? "the forecasts tell more." : "the forecasts tell no more than that.");
    }

    private static string Halves(OutcomeStudyResult outcomes)
    {
        PersonOutcome[] likely = [.. outcomes.People.Where(p => p.PassChance >= Even)];
        PersonOutcome[] unlikely = [.. outcomes.People.Where(p => p.PassChance < Even)];
        string Part(PersonOutcome[] people) => $"{people.Count(p => p.Passed)} passed";
        return (likely.Length, unlikely.Length) switch
        {
            (0, _) => $"Nobody was given 50 % or more; of the {unlikely.Length} people, {Part(unlikely)}.",
            (_, 0) => $"Everybody was given 50 % or more; of the {likely.Length} people, {Part(likely)}.",
            _ => $"Of the {likely.Length} people given 50 % or more, {Part(likely)}; of the {unlikely.Length} given less, {Part(unlikely)}.",
        };
    }

    // Rows to put at the top, the fullest first: chances at which a coach still has to decide, and enough people.
    private CalibrationBin[] Telling() => [.. Table.Bins.Where(b => b.From >= LeastTelling && b.To <= MostTelling && b.People >= TellingPeople).OrderByDescending(b => b.Count)];

    private static int Passed(CalibrationBin bin) => (int)Figures.Whole(bin.Count * bin.Observed);

    private static string Score(double score) => score.ToString("0.000", CultureInfo.InvariantCulture);
}
