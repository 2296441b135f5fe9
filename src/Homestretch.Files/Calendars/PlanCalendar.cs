using System.Globalization;
using System.Security.Cryptography;
using System.Text;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Planning.Resources;
using Homestretch.Files.Documents;

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

    /// <summary>Whether an event was written here; such events do not make a person busy when a plan is made anew.</summary>
    public static bool IsOwn(string uid) => uid.EndsWith(UidEnd, StringComparison.OrdinalIgnoreCase);

    /// <summary>The calendar's text, lines ended by CR LF. Blocks of earlier plans that are gone are cancelled, so that a calendar that has them drops them.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="candidate">Whose plan it is; part of what makes its events unique.</param>
    /// <param name="examName">The exam's name.</param>
    /// <param name="stamp">When this file is made; a later one moves the events of an earlier one.</param>
    /// <param name="material">What goes with each block; null where there is no catalogue.</param>
    public static string Write(StudyPlan plan, string candidate, string examName, Instant stamp, PlanMaterial? material = null)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(candidate);
        ArgumentNullException.ThrowIfNull(examName);
        CalendarText text = Open(examName);
        foreach ((int i, StudyBlock block) in plan.Blocks.Index())
        {
            Begin(text, Uid(candidate, examName, plan.CalendarDay, "block", block.Id), stamp);
            EndBlock(text, block.Start.ToInstant(), block.End.ToInstant(), $"{InWords(block.Purpose)}: {block.Topic.Name}", block.Reason, material?.Blocks[i].Select(p => p.Sentence) ?? []);
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
        EndExam(text, plan.ExamDay, examName);
        return text.ToString();
    }

    /// <summary>The calendar of a plan that was kept as its JSON document, for calendars that look again by themselves. They drop what is no longer in it, so that nothing needs to be
    /// cancelled.</summary>
    /// <param name="plan">The document.</param>
    /// <param name="stamp">When the plan was made.</param>
    /// <exception cref="UnparsableValueException">A time in it is none.</exception>
    public static string Write(PlanDocument plan, Instant stamp)
    {
        ArgumentNullException.ThrowIfNull(plan);
        LocalDate examDay = LocalDatePattern.Iso.Parse(plan.ExamDay).Value;
        LocalDate calendarDay = LocalDatePattern.Iso.Parse(plan.CalendarDay).Value;
        CalendarText text = Open(plan.Exam);
        text.Line("REFRESH-INTERVAL;VALUE=DURATION", "PT1H");
        foreach (BlockFields block in plan.Blocks)
        {
            Begin(text, Uid(plan.Candidate, plan.Exam, calendarDay, "block", block.Id), stamp);
            EndBlock(
                text,
                PlanDocument.Time(block.Start).ToInstant(),
                PlanDocument.Time(block.End).ToInstant(),
                $"{InWords(block.Purpose)}: {block.Topic}",
                block.Reason,
                block.Material?.Select(m => m.Sentence) ?? []);
        }

        Begin(text, Uid(plan.Candidate, plan.Exam, calendarDay, "exam", ""), stamp);
        EndExam(text, examDay, plan.Exam);
        return text.ToString();
    }

    private static CalendarText Open(string examName)
    {
        CalendarText text = new();
        text.Line("BEGIN", "VCALENDAR");
        text.Line("VERSION", "2.0");
        text.Line("PRODID", "-//Homestretch//Study plan//EN");
        text.Line("CALSCALE", "GREGORIAN");
        text.Line("METHOD", "PUBLISH");
        text.Text("X-WR-CALNAME", $"Study plan: {examName}");
        return text;
    }

    private static void EndBlock(CalendarText text, Instant start, Instant end, string summary, string reason, IEnumerable<string> material)
    {
        text.Line("DTSTART", UtcTime.Format(start));
        text.Line("DTEND", UtcTime.Format(end));
        text.Text("SUMMARY", summary);
        text.Text("DESCRIPTION", string.Join('\n', [.. material.Select(m => "With " + m), reason]));
        text.Line("BEGIN", "VALARM");
        text.Line("ACTION", "DISPLAY");
        text.Line("TRIGGER", string.Create(CultureInfo.InvariantCulture, $"-PT{AlarmMinutes}M"));
        text.Text("DESCRIPTION", summary);
        text.Line("END", "VALARM");
        text.Line("END", "VEVENT");
    }

    private static void EndExam(CalendarText text, LocalDate examDay, string examName)
    {
        text.Line("DTSTART;VALUE=DATE", Day.Format(examDay));
        text.Line("DTEND;VALUE=DATE", Day.Format(examDay.PlusDays(1)));
        text.Text("SUMMARY", $"Exam: {examName}");
        text.Line("END", "VEVENT");
        text.Line("END", "VCALENDAR");
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

    /// <summary>What a block of a plan document is for, as a calendar shows it.</summary>
    /// <param name="purpose"><c>learn</c>, <c>practise</c>, <c>quiz</c> or <c>review</c>.</param>
    /// <exception cref="InvalidOperationException">It is none of these.</exception>
    public static string InWords(string purpose) => InWords(Enum.GetValues<BlockPurpose>().First(p => Words.Of(p) == purpose));

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
