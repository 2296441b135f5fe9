using CsCheck;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.FreeTimes;

using NodaTime;

namespace Homestretch.Files.Tests.FreeTimes;

public class FreeTimeFileTests
{
    [Theory]
    [InlineData("4 h", 240)]
    [InlineData("4h", 240)]
    [InlineData("3.5 h", 210)]
    [InlineData("240 min", 240)]
    [InlineData("1 h 30 min", 90)]
    [InlineData("1h30min", 90)]
    [InlineData("2 hours", 120)]
    [InlineData("45 minutes", 45)]
    [InlineData("0.25 h", 15)]
    [InlineData("24 h", 1440)]
    [InlineData("1 min", 1)]
    public void A_daily_cap_is_read(string text, int minutes) => Assert.Equal(minutes, Read($"zone: Europe/London\ndaily-cap: {text}\nweekly: []\n").DailyCapMinutes);

    [Fact]
    public void Without_a_daily_cap_it_is_four_hours() => Assert.Equal(240, Read("zone: Europe/London\nweekly: []\n").DailyCapMinutes);

    [Fact]
    public void No_free_time_at_all_can_be_said()
    {
        FreeTime free = Read("zone: Pacific/Auckland\nweekly: []\ndays-off: []\nextra: []\n");
        Assert.Empty(free.Weekly);
        Assert.Empty(free.DaysOff);
        Assert.Empty(free.Extra);
    }

    [Theory]
    [InlineData("Monday", "Monday")]
    [InlineData("mon", "Monday")]
    [InlineData("SUNDAY", "Sunday")]
    [InlineData("[Tuesday, Sat]", "Tuesday Saturday")]
    [InlineData("Monday to Wednesday", "Monday Tuesday Wednesday")]
    [InlineData("Mon-Wed", "Monday Tuesday Wednesday")]
    [InlineData("Mon – Wed", "Monday Tuesday Wednesday")]
    [InlineData("Saturday to Monday", "Saturday Sunday Monday")]
    [InlineData("[Monday to Tuesday, Sunday]", "Monday Tuesday Sunday")]
    [InlineData("Friday to Friday", "Friday")]
    [InlineData("Monday to Sunday", "Monday Tuesday Wednesday Thursday Friday Saturday Sunday")]
    public void Days_are_read(string text, string days)
    {
        FreeTime free = Read($"zone: Europe/London\nweekly:\n  - {{day: {text}, from: 18:30, to: 20:30}}\n");
        Assert.Equal(days, string.Join(' ', free.Weekly.Select(w => w.Day)));
        Assert.All(free.Weekly, w => Assert.Equal((new LocalTime(18, 30), new LocalTime(20, 30)), (w.Start, w.End)));
    }

    // YAML 1.1 takes 18:30 for 18 * 60 + 30 and 08:30 for a number that is not; here both are times.
    [Theory]
    [InlineData("18:30", "20:30", 18, 30, 20, 30)]
    [InlineData("8:30", "09:05", 8, 30, 9, 5)]
    [InlineData("'08:30'", "\"09:00\"", 8, 30, 9, 0)]
    [InlineData("00:00", "24:00", 0, 0, 0, 0)]
    [InlineData("23:59", "24:00", 23, 59, 0, 0)]
    [InlineData("0:00", "0:01", 0, 0, 0, 1)]
    public void Times_are_read(string from, string to, int fromHour, int fromMinute, int toHour, int toMinute)
    {
        WeeklyWindow window = Read($"zone: Europe/London\nweekly:\n  - {{day: Monday, from: {from}, to: {to}}}\n").Weekly.Single();
        Assert.Equal(new WeeklyWindow(IsoDayOfWeek.Monday, new LocalTime(fromHour, fromMinute), new LocalTime(toHour, toMinute)), window);
    }

    [Fact]
    public void Any_two_times_of_a_day_make_a_window_when_the_first_is_earlier()
    {
        Gen.Select(Gen.Int[0, 1440], Gen.Int[0, 1440]).Sample((from, to) =>
        {
            string Clock(int minutes) => $"{minutes / 60:00}:{minutes % 60:00}";
            ReadResult<FreeTime> result = FreeTimeFile.Parse("free.yaml", $"zone: Europe/London\nextra:\n  - {{date: 2026-12-05, from: {Clock(from)}, to: {Clock(to)}}}\n");
            Assert.Equal(from < to, result.IsOk);
            if (result.IsOk)
            {
                ExtraWindow window = result.Value.Extra.Single();
                Assert.Equal(new LocalDate(2026, 12, 5), window.Date);
                Assert.Equal(from, window.Start.TickOfDay / NodaConstants.TicksPerMinute);
                Assert.Equal(to % 1440, window.End.TickOfDay / NodaConstants.TicksPerMinute);
            }
        });
    }

    [Fact]
    public void Every_listed_zone_is_known() =>
        Assert.All(DateTimeZoneProviders.Tzdb.Ids, id => Assert.Equal(id, Read($"zone: {id}\nweekly: []\n").Zone.Id));

    [Theory]
    [InlineData("London", "Europe/London")]
    [InlineData("europe/london", "Europe/London")]
    [InlineData("New York", "America/New_York")]
    [InlineData("Amercia/Chicago", "America/Chicago")]
    [InlineData("America/New York", "America/New_York")]
    public void A_zone_that_was_nearly_right_is_suggested(string given, string meant)
    {
        FileProblem problem = FreeTimeFile.Parse("free.yaml", $"zone: {given}\nweekly: []\n").Problems.Single();
        Assert.Contains($"did you mean {meant}?", problem.Message, StringComparison.Ordinal);
    }

    private static FreeTime Read(string yaml)
    {
        ReadResult<FreeTime> result = FreeTimeFile.Parse("free.yaml", yaml);
        Assert.Empty(result.Problems);
        return result.Value!;
    }
}
