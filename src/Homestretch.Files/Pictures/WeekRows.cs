using System.Collections.Immutable;
using System.Globalization;
using System.Xml.Linq;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;

using NodaTime;

using static Homestretch.Files.Pictures.Markup;

namespace Homestretch.Files.Pictures;

/// <summary>The plan as a calendar: a row of seven days per week, free time as ground, blocks on it. In narrow space each day
/// folds, and only today is open.</summary>
public static class WeekRows
{
    private const int MostPrintedWeeks = 5;
    private static readonly string[] Weekdays = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

    /// <summary>The calendar for a page.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="slots">Usable free time, drawn as ground; leave out to show blocks only.</param>
    /// <param name="today">The day to open; the plan's first day when left out.</param>
    /// <param name="id">Unique on the page.</param>
    public static string Html(StudyPlan plan, ImmutableArray<Slot> slots = default, LocalDate? today = null, string id = "calendar")
    {
        ImmutableArray<ImmutableArray<PlanDay>> weeks = PlanDay.Weeks(plan, slots);
        LocalDate open = today ?? plan.From.Date;
        bool ground = !slots.IsDefaultOrEmpty;
        return Write(El(
            "div",
            ("id", Id(id)),
            ("class", "hs-calendar hs-figure-box"),
            plan.Blocks.IsEmpty ? El("p", ("class", "hs-empty"), "No block is planned before the exam.") : null,
            El("div", ("class", "hs-wide hs-weeks"), weeks.Select(w => Week(plan, w, open))),
            El("div", ("class", "hs-narrow hs-days"), weeks.Select(w => NarrowWeek(plan, w, open))),
            ground ? El("p", ("class", "hs-note"), "Shaded: your free time. Days without shade are busy or off.") : null,
            plan.Blocks.IsEmpty ? null : Table(plan)));
    }

    /// <summary>The calendar for paper: a table of weeks, or, for plans longer than five weeks, days in columns of running text.</summary>
    /// <param name="plan">The plan.</param>
    public static string PrintHtml(StudyPlan plan)
    {
        ImmutableArray<ImmutableArray<PlanDay>> weeks = PlanDay.Weeks(plan, default);
        return Write(plan.Blocks.IsEmpty
            ? El("p", ("class", "hs-empty"), "No block is planned before the exam.")
            : weeks.Length <= MostPrintedWeeks ? PrintedWeeks(weeks) : PrintedList(weeks));
    }

    /// <summary>What a block is for, in one word.</summary>
    public static string Word(BlockPurpose purpose) => purpose switch
    {
        BlockPurpose.Learn => "learn",
        BlockPurpose.Practise => "practise",
        BlockPurpose.Quiz => "quiz",
        _ => "review",
    };

    private static XElement Week(StudyPlan plan, ImmutableArray<PlanDay> days, LocalDate today)
    {
        LocalDate monday = days[0].Date.PlusDays(1 - (int)days[0].Date.DayOfWeek);
        int minutes = days.Sum(d => d.Minutes);
        return El(
            "section",
            ("class", "hs-week"),
            El("h3", ("class", "hs-week-head"), $"Week of {Dates.DayOfMonth(monday)}", El("span", ("class", "hs-quiet"), minutes == 0 ? " no study" : " " + Figures.Duration(minutes))),
            El("ol", ("class", "hs-week-days"), Enumerable.Range(0, 7).Select(i =>
            {
                LocalDate date = monday.PlusDays(i);
                PlanDay? day = days.FirstOrDefault(d => d.Date == date);
                return day is null
                    ? El("li", ("class", "hs-day hs-outside"), ("aria-hidden", "true"), El("span", ("class", "hs-day-head"), Dates.DayOfWeek(date)))
                    : El(
                        "li",
                        ("class", "hs-day" + (date == today ? " hs-today" : string.Empty) + (day.IsExam ? " hs-exam" : string.Empty)),
                        ("aria-current", date == today ? "date" : null),
                        El("span", ("class", "hs-day-head"), Dates.DayOfWeek(date), date == today ? El("span", ("class", "hs-quiet"), " today") : null),
                        day.Windows.Select(w => Window(plan, w)),
                        day.IsExam ? El("p", ("class", "hs-exam-word"), "Exam") : null);
            })));
    }

    private static XElement Window(StudyPlan plan, PlanWindow window)
        => Frame(plan, window, b => Dates.Span(b.Start, b.End), b => El("p", ("class", "hs-block-purpose"), Word(b.Purpose)));

    private static XElement Frame(StudyPlan plan, PlanWindow window, Func<StudyBlock, string> head, Func<StudyBlock, XElement> foot)
        => El(
            "div",
            ("class", window.IsGround ? "hs-window" : "hs-window hs-bare"),
            window.IsGround ? El("p", ("class", "hs-window-head"), $"free {Dates.Span(window.Start, window.End)}") : null,
            window.Blocks.Select(b => El(
                "div",
                ("class", $"hs-block hs-block-{Word(b.Purpose)}"),
                El("p", ("class", "hs-block-time"), head(b)),
                El("p", ("class", "hs-block-topic"), Order(plan, b), b.Topic.Name),
                foot(b))));

    private static XElement NarrowWeek(StudyPlan plan, ImmutableArray<PlanDay> days, LocalDate today)
    {
        LocalDate monday = days[0].Date.PlusDays(1 - (int)days[0].Date.DayOfWeek);
        return El(
            "section",
            ("class", "hs-week"),
            El("h3", ("class", "hs-week-head"), $"Week of {Dates.DayOfMonth(monday)}"),
            days.Select(day => day.Windows.IsEmpty && !day.IsExam
                ? El("p", ("class", "hs-day-line"), El("span", ("class", "hs-day-name"), Dates.Day(day.Date)), " ", El("span", ("class", "hs-quiet"), (day.Date == today ? "today, " : string.Empty) + day.Summary))
                : El(
                    "details",
                    ("class", "hs-day-fold"),
                    ("open", day.Date == today ? "open" : null),
                    El("summary", El("span", ("class", "hs-day-name"), Dates.Day(day.Date)), " ", El("span", ("class", "hs-quiet"), (day.Date == today ? "today, " : string.Empty) + day.Summary)),
                    day.Windows.Select(w => NarrowWindow(plan, w)),
                    day.IsExam ? El("p", ("class", "hs-exam-word"), "Exam") : null)));
    }

    private static XElement NarrowWindow(StudyPlan plan, PlanWindow window)
        => Frame(plan, window, b => $"{Dates.Span(b.Start, b.End)}, {Word(b.Purpose)}", b => El("p", ("class", "hs-block-reason"), b.Reason));

    private static XElement? Order(StudyPlan plan, StudyBlock block)
        => plan.Minutes.FirstOrDefault(m => m.Topic.Name == block.Topic.Name) is { } minutes
            ? El("span", ("class", "hs-order"), minutes.Order.ToString(CultureInfo.InvariantCulture))
            : null;

    private static XElement Table(StudyPlan plan)
        => DataTable.Of(
            "All blocks in time order",
            ["Day", "Time", "Topic", "For", "Why"],
            plan.Blocks.Select(b => new[] { Dates.Day(b.Start.Date), Dates.Span(b.Start, b.End), b.Topic.Name, Word(b.Purpose), b.Reason }));

    private static XElement PrintedWeeks(ImmutableArray<ImmutableArray<PlanDay>> weeks)
        => El(
            "table",
            ("class", "hs-table hs-print-weeks"),
            El("caption", ("class", "hs-hidden"), "Blocks week by week"),
            El("thead", El("tr", Weekdays.Select(d => El("th", ("scope", "col"), d)))),
            El("tbody", weeks.Select(w => El("tr", Enumerable.Range(1, 7).Select(i =>
            {
                PlanDay? day = w.FirstOrDefault(d => (int)d.Date.DayOfWeek == i);
                return El(
                    "td",
                    ("class", day is null || (!day.IsExam && !day.Blocks.Any()) ? "hs-none" : null),
                    day is null ? null : El("span", ("class", "hs-print-date"), El("span", ("class", "hs-weekday"), Dates.DayOfWeek(day.Date)[..3] + " "), Dates.DayOfMonth(day.Date)),
                    day is null ? [] : Stretches(day).Select(PrintedStretch),
                    day is { IsExam: true } ? El("p", ("class", "hs-exam-word"), "Exam") : null);
            })))));

    private static XElement PrintedStretch(ImmutableArray<StudyBlock> stretch)
        => El(
            "p",
            ("class", "hs-print-block"),
            El("span", ("class", "hs-tick"), ("aria-hidden", "true")),
            El("b", Dates.Time(stretch[0].Start.TimeOfDay)),
            " " + Purposes(stretch),
            El("span", stretch[0].Topic.Name));

    private static XElement PrintedList(ImmutableArray<ImmutableArray<PlanDay>> weeks)
        => El(
            "div",
            ("class", "hs-print-list"),
            weeks.SelectMany(w => w).Where(d => d.IsExam || d.Blocks.Any()).Select(d => El(
                "p",
                ("class", "hs-print-day"),
                El("b", Dates.Day(d.Date)),
                " ",
                string.Join("; ", Stretches(d).Select(s => $"{Dates.Time(s[0].Start.TimeOfDay)} {Lettering.Shorten(s[0].Topic.Name, 11, 130)} ({Purposes(s)})").Concat(d.IsExam ? ["exam"] : [])))));

    /// <summary>Blocks of a day, those on the same topic in a row taken together.</summary>
    private static IEnumerable<ImmutableArray<StudyBlock>> Stretches(PlanDay day)
    {
        List<StudyBlock> run = [];
        foreach (StudyBlock block in day.Blocks)
        {
            if (run.Count > 0 && run[0].Topic.Name != block.Topic.Name)
            {
                yield return [.. run];
                run.Clear();
            }

            run.Add(block);
        }

        if (run.Count > 0)
        {
            yield return [.. run];
        }
    }

    private static string Purposes(ImmutableArray<StudyBlock> stretch)
        => string.Join(", ", stretch.Select(b => Word(b.Purpose)).Distinct());
}
