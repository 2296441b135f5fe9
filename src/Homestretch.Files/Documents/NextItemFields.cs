using Homestretch.Core.AdaptiveTesting;

namespace Homestretch.Files.Documents;

/// <summary>An item to give next. Chances are 0 to 1.</summary>
/// <param name="Item">Its label in the bank.</param>
/// <param name="Test">The test that gives the label its meaning; null where it means the same item in every test.</param>
/// <param name="Topic">Its topic.</param>
/// <param name="Reason"><c>tells-most</c> or <c>topic-behind</c>.</param>
/// <param name="Why">The same in a sentence.</param>
/// <param name="ChanceRight">Chance of a correct answer.</param>
/// <param name="PassIfRight">The pass chance after a correct answer to this item alone.</param>
/// <param name="PassIfWrong">The pass chance after a wrong one.</param>
/// <param name="PassMove">How far its answer alone is expected to move the pass chance.</param>
/// <param name="Information">By how much its answer is expected to lower the doubt, after those of the items before it.</param>
public sealed record NextItemFields(
    string Item, string? Test, string Topic, string Reason, string Why, double ChanceRight, double PassIfRight, double PassIfWrong, double PassMove, double Information)
{
    internal static NextItemFields Of(DiagnosticStep step, NextItem next) => new(
        next.Item.Item,
        next.Item.Test,
        next.Item.Topic,
        Words.Of(next.Reason),
        StepSentences.Why(step, next),
        next.ChanceRight,
        next.PassIfRight,
        next.PassIfWrong,
        next.PassMove,
        next.Information);
}
