using System.Collections.Immutable;

using NodaTime;

namespace Homestretch.Core.Words;

/// <summary>Which words to recall today, and what is expected of all of them.</summary>
/// <param name="Today">Today.</param>
/// <param name="ExamDay">The day of the exam.</param>
/// <param name="RecallsPerDay">Recalls that fit into a day.</param>
/// <param name="DoneToday">Words that have been recalled today already.</param>
/// <param name="Words">Every word noted by today, in the order in which they were given.</param>
public sealed record WordPlan(LocalDate Today, LocalDate ExamDay, int RecallsPerDay, int DoneToday, ImmutableArray<WordOutlook> Words)
{
    /// <summary>Words that are expected to be known on exam day, with today's recalls and all that are worth their time later.</summary>
    public double ExpectedPlanned => Words.Sum(w => w.ChancePlanned);

    /// <summary>Words that are expected to be known on exam day, with no further recall.</summary>
    public double ExpectedAlone => Words.Sum(w => w.ChanceAlone);

    /// <summary>Words that are expected to be known on exam day with today's recalls and none after.</summary>
    public double ExpectedAfterToday => Words.Sum(w => w.State == WordState.Today ? w.ChanceAfterOne : w.ChanceAlone);

    /// <summary>The words to recall today: where it is worth most first.</summary>
    public ImmutableArray<WordOutlook> ForToday => [.. Words.Where(w => w.State == WordState.Today).OrderByDescending(w => w.WorthToday)];
}
