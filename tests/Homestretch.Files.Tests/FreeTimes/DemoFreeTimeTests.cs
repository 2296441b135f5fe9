using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.FreeTimes;

using NodaTime;

namespace Homestretch.Files.Tests.FreeTimes;

public class DemoFreeTimeTests
{
    [Theory]
    [InlineData("mara-venn.free.yaml", 180, 6, 2, 1)]
    [InlineData("tobias-okell.free.yaml", 150, 6, 1, 0)]
    [InlineData("ines-harrow.free.yaml", 240, 2, 0, 2)]
    public void Every_demo_candidate_has_free_time(string file, int cap, int weekly, int daysOff, int extra)
    {
        ReadResult<FreeTime> result = FreeTimeFile.Read(TestFiles.Demo(file));
        Assert.Empty(result.Problems);
        FreeTime free = result.Value!;
        Assert.Equal("Europe/London", free.Zone.Id);
        Assert.Equal(cap, free.DailyCapMinutes);
        Assert.Equal(weekly, free.Weekly.Length);
        Assert.Equal(daysOff, free.DaysOff.Length);
        Assert.Equal(extra, free.Extra.Length);
    }

    [Fact]
    public void Windows_and_days_off_are_read()
    {
        FreeTime free = FreeTimeFile.Read(TestFiles.Demo("mara-venn.free.yaml")).Value!;
        Assert.Equal(new WeeklyWindow(IsoDayOfWeek.Monday, new LocalTime(18, 30), new LocalTime(21, 0)), free.Weekly[0]);
        Assert.Equal(new WeeklyWindow(IsoDayOfWeek.Tuesday, new LocalTime(18, 0), new LocalTime(19, 15)), free.Weekly[3]);
        Assert.Equal(new DateInterval(new LocalDate(2026, 12, 5), new LocalDate(2026, 12, 6)), free.DaysOff[0]);
        Assert.Equal(new DateInterval(new LocalDate(2026, 12, 11), new LocalDate(2026, 12, 11)), free.DaysOff[1]);
        Assert.Equal(new ExtraWindow(new LocalDate(2026, 12, 14), new LocalTime(14, 0), new LocalTime(17, 0)), free.Extra[0]);
    }
}
