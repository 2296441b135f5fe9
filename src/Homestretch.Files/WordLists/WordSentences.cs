using System.Globalization;

using Homestretch.Core.Words;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.WordLists;

/// <summary>Words to practise, said in sentences.</summary>
public static class WordSentences
{
    /// <summary>What today's practice is worth.</summary>
    public static string Today(WordPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        int today = plan.ForToday.Length;
        string until = Dates.Until(plan.Today, plan.ExamDay);
        return (today, plan.DoneToday) switch
        {
            _ when plan.Words.IsEmpty => $"No words are noted yet; {until}.",
            (0, > 0) => $"{Figures.Plural(plan.DoneToday, "word")} recalled today, and nothing more to practise; {until}.",
            (0, _) => $"No words to practise today; {until}.",
            _ => $"{Figures.Plural(today, "word")} to practise today{(plan.DoneToday > 0 ? $", {plan.DoneToday} done" : "")}; {until}.",
        };
    }

    /// <summary>What is expected to be known on exam day.</summary>
    public static string Expected(WordPlan plan)
    {
        ArgumentNullException.ThrowIfNull(plan);
        string all = Figures.Plural(plan.Words.Length, "word");
        return $"On exam day you can expect to know about {Figures.Count(plan.ExpectedPlanned)} of {all} if you practise until then, {Figures.Count(plan.ExpectedAlone)} with no further practice"
            + (plan.ForToday.IsEmpty ? "." : string.Create(CultureInfo.InvariantCulture, $"; today's recalls by themselves add about {plan.ExpectedAfterToday - plan.ExpectedAlone:0.0}."));
    }

    /// <summary>Why a word comes today, later, or not at all, with its figures.</summary>
    public static string Why(WordOutlook word)
    {
        ArgumentNullException.ThrowIfNull(word);
        string last = Last(word.Word);
        string alone = Figures.Percent(word.ChanceAlone);
        return word.State switch
        {
            WordState.Today => $"{last}; on exam day {alone} as it stands, {Figures.Percent(word.ChanceAfterOne)} with recall today.",
            WordState.DoneToday => $"{last}; on exam day {alone} as it stands.",
            WordState.Later => $"{last}; on exam day {alone} as it stands, and recall on a later day adds more than today.",
            WordState.Sure => $"{last}; on exam day {alone}, and not worth more time.",
            WordState.NoRoom => $"{last}; on exam day {alone} as it stands, but the time goes to words where it adds more.",
            WordState.HardlySticks => $"{last}; on exam day {alone}, and recall hardly adds to that: a better definition or an example may do more.",
            WordState.TooLate => "Never recalled, and nothing new is begun on the last evening.",
            _ => "No definition yet: write one, or ask the coach for one.",
        };
    }

    private static string Last(Word word) => word.Answers is [.., RecallAnswer answer]
        ? $"{Outcome(answer.Outcome)} on {Dates.Day(answer.Day)}"
        : $"Not recalled since it was noted on {Dates.Day(word.Noted)}";

    private static string Outcome(RecallOutcome outcome) => outcome switch
    {
        RecallOutcome.Knew => "Known",
        RecallOutcome.Partly => "Partly known",
        _ => "Not known",
    };
}
