namespace Homestretch.Core.Words;

/// <summary>One word until the exam.</summary>
/// <param name="Word">The word, with the answers up to today.</param>
/// <param name="State">What is to happen with it.</param>
/// <param name="ChanceToday">Chance that it would be recalled today, after any recall there was today.</param>
/// <param name="ChanceAlone">Chance that it is known on exam day with no further recall.</param>
/// <param name="ChanceAfterOne">Chance that it is known on exam day with one more recall, today.</param>
/// <param name="ChancePlanned">Chance that it is known on exam day with recall today, if it is chosen, and all recalls that are worth their time later.</param>
/// <param name="WorthToday">What recall today, and what follows from it, is worth against no further recall, in words known on exam day, the price of time taken off; 0 where it cannot come today.</param>
/// <param name="RecallDays">Days with a recall so far.</param>
public sealed record WordOutlook(
    Word Word,
    WordState State,
    double ChanceToday,
    double ChanceAlone,
    double ChanceAfterOne,
    double ChancePlanned,
    double WorthToday,
    int RecallDays)
{
    /// <summary>What a recall today adds by itself to the chance of knowing the word on exam day.</summary>
    public double GainToday => ChanceAfterOne - ChanceAlone;
}
