using Homestretch.Core.AdaptiveTesting;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.Documents;

/// <summary>A quick diagnostic's step in sentences, the same for people and in documents.</summary>
public static class StepSentences
{
    /// <summary>Why it may stop; null when it should go on.</summary>
    public static string? Stop(DiagnosticStep step)
    {
        ArgumentNullException.ThrowIfNull(step);
        bool levels = step.Rules.Target == DiagnosticTarget.Bands;
        return step.Stop switch
        {
            null => null,
            StopReason.Settled when levels => $"The levels on the topics where study moves the pass chance are each at least {Figures.Percent(Level.SettledFrom)} sure.",
            StopReason.Settled => $"The pass chance is {(step.Pass.Low > PassSureness.EvenChance ? "above" : "below")} 50 % for all that is known of the abilities: "
                + $"its 90 % range is {Figures.PercentRange(step.Pass.Low, step.Pass.High)}.",
            StopReason.LittleToLearn when levels => "No item left is expected to change the chances of the levels by much.",
            StopReason.LittleToLearn => $"No item left is expected to move the pass chance by as much as {Points(step.Rules.LeastChange)}.",
            StopReason.LongEnough => $"It has had {Figures.Plural(step.Given, "item")}; {step.Rules.AtMost} are the most that were agreed.",
            StopReason.NothingLeft => "The bank has no item left that may be given.",
            _ => throw new ArgumentOutOfRangeException(nameof(step)),
        };
    }

    /// <summary>Why an item was chosen.</summary>
    public static string Why(DiagnosticStep step, NextItem item)
    {
        ArgumentNullException.ThrowIfNull(step);
        ArgumentNullException.ThrowIfNull(item);
        string what = step.Rules.Target == DiagnosticTarget.Bands
            ? "about the levels"
            : $"about the pass chance, which it is expected to move by {Points(item.PassMove)}";
        return item.Reason == ItemReason.TopicBehind
            ? $"{item.Item.Topic} has had fewer items than its share of the blueprint; of those on such topics this one tells most, or nearly so, {what}."
            : $"Of the items that may come next its answer tells most, or nearly so, {what}.";
    }

    /// <summary>A size in percentage points: "3 points", "0.4 points".</summary>
    public static string Points(double size)
        => size < 0.0005 ? "under 0.1 points" : Figures.Points(size)[1..];
}
