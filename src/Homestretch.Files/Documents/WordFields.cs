using System.Collections.Immutable;

using Homestretch.Core.Words;
using Homestretch.Files.WordLists;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>One word until the exam.</summary>
/// <param name="Term">The term.</param>
/// <param name="Topic">Its topic, or "Topic / Subtopic"; null where it has none.</param>
/// <param name="Definition">The person's own definition, or null.</param>
/// <param name="CoachDefinition">The coach's, or null.</param>
/// <param name="Noted">The day it was noted, ISO 8601.</param>
/// <param name="Answers">Recalls up to today.</param>
/// <param name="State">What is to happen with it.</param>
/// <param name="Why">The same in a sentence, with its figures.</param>
/// <param name="ChanceToday">Chance that it would be recalled today.</param>
/// <param name="ChanceAlone">Chance that it is known on exam day with no further recall.</param>
/// <param name="ChancePlanned">The same with today's recall, where it is to come today, and all that are worth their time later.</param>
/// <param name="GainToday">What a recall today adds by itself to the chance alone.</param>
/// <param name="WorthToday">What recall today, and what follows from it, is worth against no further recall, in words known on exam day, the price of time taken off.</param>
public sealed record WordFields(
    string Term,
    string? Topic,
    string? Definition,
    string? CoachDefinition,
    string Noted,
    ImmutableArray<RecallFields> Answers,
    string State,
    string Why,
    double ChanceToday,
    double ChanceAlone,
    double ChancePlanned,
    double GainToday,
    double WorthToday)
{
    internal static WordFields Of(WordOutlook word) => new(
        word.Word.Term,
        word.Word.Topic,
        word.Word.OwnDefinition,
        word.Word.CoachDefinition,
        LocalDatePattern.Iso.Format(word.Word.Noted),
        [.. word.Word.Answers.Select(a => new RecallFields(LocalDatePattern.Iso.Format(a.Day), OutcomeNames.Of(a.Outcome)))],
        Words.Of(word.State),
        WordSentences.Why(word),
        word.ChanceToday,
        word.ChanceAlone,
        word.ChancePlanned,
        word.GainToday,
        word.WorthToday);
}
