using System.Globalization;

using Homestretch.Core.Deciding;
using Homestretch.Files.Pictures;

using NodaTime.Text;

using Spectre.Console;

namespace Homestretch.Cli.Prose;

/// <summary>Says what a decision rests on.</summary>
internal static class DecisionProse
{
    private const string Yours = "These are figures, not a promise; the decision is yours, and the exam owner's handbook comes first.";

    public static void Write(IAnsiConsole console, PersonsTime person, DateAdvice advice)
    {
        console.Sentence($"{person.Candidate}: {advice.Reason}");
        if (advice.EarliestRetake is { } earliest)
        {
            console.Sentence($"After the earlier attempts the owner's retake rule allows {LocalDatePattern.Iso.Format(earliest)} at the earliest.");
        }

        bool fees = advice.Options.Any(o => o.ExpectedFees is not null);
        console.Heading("Exam dates");
        Table table = fees
            ? Tables.Table("Date", ">No more study", ">Best plan", ">Study", ">Expected fees", "")
            : Tables.Table("Date", ">No more study", ">Best plan", ">Study", "");
        foreach (DateOption option in advice.Options)
        {
            string note = string.Join("; ", new[] { option.Booked ? "booked" : null, option == advice.Best ? "favoured" : null, option.Barred }.OfType<string>());
            string[] cells =
            [
                LocalDatePattern.Iso.Format(option.Date),
                Figures.Percent(option.NoStudy),
                Figures.Percent(option.PassChance),
                Figures.Duration(option.StudyMinutes),
                .. fees ? [option.ExpectedFees is { } sum ? sum.ToString("F0", CultureInfo.InvariantCulture) : "-"] : Array.Empty<string>(),
                note,
            ];
            table.Row(cells);
        }

        console.Write(table);
        console.Basis(person.Basis, person.Standing);
        console.Sentence(Yours);
    }

    public static void Write(IAnsiConsole console, PersonsTime person, HoursAdvice advice)
    {
        console.Sentence($"{person.Candidate}: {advice.Reason}");
        console.Heading("Hours a week");
        Table table = Tables.Table(">Free time a week", ">Pass chance", ">Study to the exam", "");
        foreach (HoursOption option in advice.Options)
        {
            table.Row(
                Figures.Duration(option.WeeklyMinutes),
                Figures.Percent(option.PassChance),
                Figures.Duration(option.StudyMinutes),
                string.Join("; ", new[] { option.Now ? "as it is" : null, option.WeeklyMinutes == advice.EnoughWeeklyMinutes && option != advice.Options[^1] ? "more adds less than a point" : null }.OfType<string>()));
        }

        console.Write(table);
        console.Basis(person.Basis, person.Standing);
        console.Sentence("Rest and sleep come before one more hour. " + Yours);
    }

    public static void Write(IAnsiConsole console, PersonsTime person, TestValue value)
    {
        console.Sentence($"{person.Candidate}: {value.Reason}");
        console.Heading("One more test");
        Table table = Tables.Table("", ">Pass chance");
        table.Row("Best plan without the test", Figures.Percent(value.Without));
        table.Row($"Its {Figures.Duration(value.Test.Minutes)} taken from study", Figures.Points(-value.Minutes));
        table.Row("A better plan from its result", Figures.Points(value.Information));
        table.Row("Best plan with the test", Figures.Percent(value.WithTest));
        console.Write(table);
        console.Sentence(
            $"{Figures.Plural(value.Test.Items.Sum(), "item")}, with going over the answers. The result may well move the forecast by {Figures.Distance(value.Doubt)} to either side: that is news, not a change in what you know. "
            + $"Averaged over {value.Results} results that the evidence so far lets expect.");
        console.Basis(person.Basis, person.Standing);
        console.Sentence(Yours);
    }
}
