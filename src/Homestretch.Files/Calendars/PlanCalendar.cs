using System.Globalization;
using System.Security.Cryptography;
using System.Text;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Files.Calendars;

/// <summary>Writes a plan as an iCalendar file (RFC 5545) for the person's own calendar.</summary>
/// <remarks>Times are in UTC; see docs/decisions/0022-plan-times-in-utc.md.</remarks>
public static class PlanCalendar
{
    /// <summary>The alarm sounds so many minutes before a block.</summary>
    public const int AlarmMinutes = 10;

    private const string UidEnd = "@homestretch.invalid";

    // Sequence numbers count seconds from here, so that a later file always has the higher number and they fit until 2088.
    private static readonly Instant SequenceStart = Instant.FromUtc(2020, 1, 1, 0, 0);

    private static readonly InstantPattern UtcTime = InstantPattern.CreateWithInvariantCulture("uuuuMMdd'T'HHmmss'Z'");
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd");

    /// <summary>Whether an event was written by <see cref="Write"/>; such events do not make a person busy when a plan is made anew.</summary>
    public static bool IsOwn(string uid) => uid.EndsWith(UidEnd, StringComparison.OrdinalIgnoreCase);

    /// <summary>The calendar's text, lines ended by CR LF. Blocks of earlier plans that are gone are cancelled, so that a calendar that has them drops them.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="candidate">Whose plan it is; part of what makes its events unique.</param>
    /// <param name="examName">The exam's name.</param>
    /// <param name="stamp">When this file is made; a later one moves the events of an earlier one.</param>
    public static string Write(StudyPlan plan, string candidate, string examName, Instant stamp)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(candidate);
        ArgumentNullException.ThrowIfNull(examName);
        CalendarText text = new();
        text.Line("BEGIN", "VCALENDAR");
        text.Line("VERSION", "2.0");
        text.Line("PRODID", "-//Homestretch//Study plan//EN");
        text.Line("CALSCALE", "GREGORIAN");
        text.Line("METHOD", "PUBLISH");
        text.Text("X-WR-CALNAME", $"Study plan: {examName}");
        foreach (StudyBlock block in plan.Blocks)
        {
            string summary = $"{InWords(block.Purpose)}: {block.Topic.Name}";
            Begin(text, Uid(candidate, examName, plan.CalendarDay, "block", block.Id), stamp);
            text.Line("DTSTART", UtcTime.Format(block.Start.ToInstant()));
            text.Line("DTEND", UtcTime.Format(block.End.ToInstant()));
            text.Text("SUMMARY", summary);
            text.Text("DESCRIPTION", block.Reason);
            text.Line("BEGIN", "VALARM");
            text.Line("ACTION", "DISPLAY");
            text.Line("TRIGGER", string.Create(CultureInfo.InvariantCulture, $"-PT{AlarmMinutes}M"));
            text.Text("DESCRIPTION", summary);
            text.Line("END", "VALARM");
            text.Line("END", "VEVENT");
        }

        foreach (EarlierBlock block in plan.Revision?.Earlier.Where(b => IsStale(b, plan.Zone)) ?? [])
        {
            Begin(text, Uid(candidate, examName, plan.CalendarDay, "block", block.Id), stamp);
            text.Line("DTSTART", UtcTime.Format(block.Time.Start));
            text.Line("DTEND", UtcTime.Format(block.Time.End));
            text.Text("SUMMARY", $"No longer planned: {InWords(block.Purpose)}: {block.Topic}");
            text.Line("STATUS", "CANCELLED");
            text.Line("TRANSP", "TRANSPARENT");
            text.Line("END", "VEVENT");
        }

        Begin(text, Uid(candidate, examName, plan.CalendarDay, "exam", ""), stamp);
        text.Line("DTSTART;VALUE=DATE", Day.Format(plan.ExamDay));
        text.Line("DTEND;VALUE=DATE", Day.Format(plan.ExamDay.PlusDays(1)));
        text.Text("SUMMARY", $"Exam: {examName}");
        text.Line("END", "VEVENT");
        text.Line("END", "VCALENDAR");
        return text.ToString();
    }

    // Gone from the plan, or done before its time came.
    private static bool IsStale(EarlierBlock block, DateTimeZone zone)
        => block.Fate != BlockFate.Done || (block.DoneOn is { } day && day < block.Time.Start.InZone(zone).Date);

    /// <summary>What a block is for, as a calendar shows it.</summary>
    private static string InWords(BlockPurpose purpose) => purpose switch
    {
        BlockPurpose.Learn => "Learn",
        BlockPurpose.Practise => "Practise",
        BlockPurpose.Quiz => "Short quiz",
        _ => "Light review",
    };

    private static void Begin(CalendarText text, string uid, Instant stamp)
    {
        string time = UtcTime.Format(stamp);
        text.Line("BEGIN", "VEVENT");
        text.Line("UID", uid);
        text.Line("DTSTAMP", time);
        text.Line("LAST-MODIFIED", time);
        text.Line("SEQUENCE", Sequence(stamp).ToString(CultureInfo.InvariantCulture));
    }

    private static int Sequence(Instant stamp) => (int)Math.Clamp((stamp - SequenceStart).TotalSeconds, 0, int.MaxValue);

    // A digest, so that names do not travel in an identifier and odd letters cannot break it.
    private static string Uid(string candidate, string examName, LocalDate examDay, string what, string id)
    {
        string whole = string.Join('\n', candidate.Trim(), examName.Trim(), Day.Format(examDay), what, id);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(whole)).AsSpan(0, 16)) + UidEnd;
    }
}
