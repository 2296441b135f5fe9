using System.Collections.Immutable;

using Homestretch.Core.Words;

using NodaTime.Text;

namespace Homestretch.Files.Documents;

/// <summary>Which words to recall today, and what is expected to be known on exam day.</summary>
/// <param name="Exam">Name of the exam.</param>
/// <param name="Today">The day, ISO 8601.</param>
/// <param name="ExamDay">The day of the exam, ISO 8601.</param>
/// <param name="RecallsPerDay">Recalls that fit into a day.</param>
/// <param name="DoneToday">Words recalled today already.</param>
/// <param name="Expected">How many words are expected to be known on exam day.</param>
/// <param name="Practise">Terms to recall today, where it is worth most first.</param>
/// <param name="Words">Every word, in the order of the files.</param>
public sealed record WordsDocument(
    string Exam,
    string Today,
    string ExamDay,
    int RecallsPerDay,
    int DoneToday,
    ExpectedWordsFields Expected,
    ImmutableArray<string> Practise,
    ImmutableArray<WordFields> Words)
{
    /// <summary>The document of a plan.</summary>
    public static WordsDocument Of(string exam, WordPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        return new(
            exam,
            LocalDatePattern.Iso.Format(plan.Today),
            LocalDatePattern.Iso.Format(plan.ExamDay),
            plan.RecallsPerDay,
            plan.DoneToday,
            new ExpectedWordsFields(plan.ExpectedAlone, plan.ExpectedAfterToday, plan.ExpectedPlanned),
            [.. plan.ForToday.Select(w => w.Word.Term)],
            [.. plan.Words.Select(w => WordFields.Of(w))]);
    }
}
