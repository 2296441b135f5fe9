using System.Globalization;

using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Calibration;
using Homestretch.Core.Laboratory;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;
using Homestretch.Core.Words;

namespace Homestretch.Files.Documents;

/// <summary>The words that documents use for the model's choices: lower case, joined by hyphens.</summary>
public static class Words
{
    /// <summary>weak, borderline or strong.</summary>
    public static string Of(Band band) => band.Word();

    /// <summary>heavy, moderate or light.</summary>
    public static string Of(WeightClass weight) => weight.Word();

    /// <summary>none, practice-order or optimised.</summary>
    public static string Of(Policy policy) => policy switch
    {
        Policy.None => "none",
        Policy.PracticeOrder => "practice-order",
        Policy.Optimised => "optimised",
        _ => throw new ArgumentOutOfRangeException(nameof(policy)),
    };

    /// <summary>optimised, practice-order, practice-by-hand, equal-shares, by-weight, weakest-first, nothing or oracle.</summary>
    public static string Of(LaboratoryPolicy policy) => policy switch
    {
        LaboratoryPolicy.Optimised => "optimised",
        LaboratoryPolicy.PracticeOrder => "practice-order",
        LaboratoryPolicy.ByHand => "practice-by-hand",
        LaboratoryPolicy.EqualShares => "equal-shares",
        LaboratoryPolicy.ByWeight => "by-weight",
        LaboratoryPolicy.WeakestFirst => "weakest-first",
        LaboratoryPolicy.Nothing => "nothing",
        LaboratoryPolicy.Oracle => "oracle",
        _ => throw new ArgumentOutOfRangeException(nameof(policy)),
    };

    /// <summary>learn, practise, quiz or review.</summary>
    public static string Of(BlockPurpose purpose) => purpose switch
    {
        BlockPurpose.Learn => "learn",
        BlockPurpose.Practise => "practise",
        BlockPurpose.Quiz => "quiz",
        BlockPurpose.Review => "review",
        _ => throw new ArgumentOutOfRangeException(nameof(purpose)),
    };

    /// <summary>planned, done, missed or dropped.</summary>
    public static string Of(BlockFate fate) => fate switch
    {
        BlockFate.Planned => "planned",
        BlockFate.Done => "done",
        BlockFate.Missed => "missed",
        BlockFate.Dropped => "dropped",
        _ => throw new ArgumentOutOfRangeException(nameof(fate)),
    };

    /// <summary>made-up, moved, replaced, dropped, added or repurposed.</summary>
    public static string Of(RevisionKind kind) => kind switch
    {
        RevisionKind.MadeUp => "made-up",
        RevisionKind.Moved => "moved",
        RevisionKind.Replaced => "replaced",
        RevisionKind.Dropped => "dropped",
        RevisionKind.Added => "added",
        RevisionKind.Repurposed => "repurposed",
        _ => throw new ArgumentOutOfRangeException(nameof(kind)),
    };

    /// <summary>every-section, total or total-with-section-minimums.</summary>
    public static string Of(OverallRule rule) => rule switch
    {
        OverallRule.EverySection => "every-section",
        OverallRule.Total => "total",
        OverallRule.TotalWithSectionMinimums => "total-with-section-minimums",
        _ => throw new ArgumentOutOfRangeException(nameof(rule)),
    };

    /// <summary>too-easy, too-hard, does-not-separate, probably-miskeyed, often-omitted or often-not-reached.</summary>
    public static string Of(ItemConcern concern) => concern switch
    {
        ItemConcern.TooEasy => "too-easy",
        ItemConcern.TooHard => "too-hard",
        ItemConcern.DoesNotSeparate => "does-not-separate",
        ItemConcern.ProbablyMiskeyed => "probably-miskeyed",
        ItemConcern.OftenOmitted => "often-omitted",
        ItemConcern.OftenNotReached => "often-not-reached",
        _ => throw new ArgumentOutOfRangeException(nameof(concern)),
    };

    /// <summary>missing, too-few, fair or over-sampled.</summary>
    public static string Of(CoverageVerdict verdict) => verdict switch
    {
        CoverageVerdict.Missing => "missing",
        CoverageVerdict.TooFew => "too-few",
        CoverageVerdict.Fair => "fair",
        CoverageVerdict.OverSampled => "over-sampled",
        _ => throw new ArgumentOutOfRangeException(nameof(verdict)),
    };

    /// <summary>no-outcome, nothing-before, incomplete or ambiguous.</summary>
    public static string Of(LeftOutReason reason) => reason switch
    {
        LeftOutReason.NoOutcome => "no-outcome",
        LeftOutReason.NothingBefore => "nothing-before",
        LeftOutReason.Incomplete => "incomplete",
        LeftOutReason.Ambiguous => "ambiguous",
        _ => throw new ArgumentOutOfRangeException(nameof(reason)),
    };

    /// <summary>rasch, 2pl or 3pl.</summary>
    public static string Of(ItemModel model) => model switch
    {
        ItemModel.Rasch => "rasch",
        ItemModel.TwoParameter => "2pl",
        ItemModel.ThreeParameter => "3pl",
        _ => throw new ArgumentOutOfRangeException(nameof(model)),
    };

    /// <summary>unknown, follows, doubtful or strays.</summary>
    public static string Of(CurveVerdict verdict) => verdict switch
    {
        CurveVerdict.Unknown => "unknown",
        CurveVerdict.Follows => "follows",
        CurveVerdict.Doubtful => "doubtful",
        CurveVerdict.Strays => "strays",
        _ => throw new ArgumentOutOfRangeException(nameof(verdict)),
    };

    /// <summary>pass or levels.</summary>
    public static string Of(DiagnosticTarget target) => target switch
    {
        DiagnosticTarget.PassChance => "pass",
        DiagnosticTarget.Bands => "levels",
        _ => throw new ArgumentOutOfRangeException(nameof(target)),
    };

    /// <summary>settled, little-to-learn, long-enough or nothing-left.</summary>
    public static string Of(StopReason reason) => reason switch
    {
        StopReason.Settled => "settled",
        StopReason.LittleToLearn => "little-to-learn",
        StopReason.LongEnough => "long-enough",
        StopReason.NothingLeft => "nothing-left",
        _ => throw new ArgumentOutOfRangeException(nameof(reason)),
    };

    /// <summary>tells-most or topic-behind.</summary>
    public static string Of(ItemReason reason) => reason switch
    {
        ItemReason.TellsMost => "tells-most",
        ItemReason.TopicBehind => "topic-behind",
        _ => throw new ArgumentOutOfRangeException(nameof(reason)),
    };

    /// <summary>A cut score as it was published: "49 correct", "65 %", "scaled 300".</summary>
    public static string Of(CutScore cut) => cut switch
    {
        CorrectCut correct => string.Create(CultureInfo.InvariantCulture, $"{correct.Correct} correct"),
        PercentCut percent => string.Create(CultureInfo.InvariantCulture, $"{percent.Percent} %"),
        ScaledLineCut line => string.Create(CultureInfo.InvariantCulture, $"scaled {line.AtLeast}"),
        ScaledTableCut table => string.Create(CultureInfo.InvariantCulture, $"scaled {table.AtLeast}"),
        _ => throw new ArgumentOutOfRangeException(nameof(cut)),
    };

    /// <summary>A weight as it was published: "12 items", "30 %", "35-40 %".</summary>
    public static string Of(Weight weight)
    {
        string unit = weight.Unit == WeightUnit.Percent ? "%" : weight.Low == 1 && weight.High == 1 ? "item" : "items";
        return weight.Low == weight.High
            ? string.Create(CultureInfo.InvariantCulture, $"{weight.Low} {unit}")
            : string.Create(CultureInfo.InvariantCulture, $"{weight.Low}-{weight.High} {unit}");
    }

    /// <summary>What is to happen with a word.</summary>
    public static string Of(WordState state) => state switch
    {
        WordState.Today => "today",
        WordState.DoneToday => "done-today",
        WordState.Later => "later",
        WordState.Sure => "sure",
        WordState.NoRoom => "no-room",
        WordState.HardlySticks => "hardly-sticks",
        WordState.TooLate => "too-late",
        WordState.LacksDefinition => "lacks-definition",
        _ => throw new ArgumentOutOfRangeException(nameof(state)),
    };
}
