using Homestretch.Files.Calendars;

using NodaTime;

namespace Homestretch.Files.Tests.Calendars;

/// <summary>The files under cases/busy.</summary>
public class BusyCasesTests
{
    public static TheoryData<string> Malformed =>
        [.. Directory.GetFiles(TestFiles.Cases("busy"), "*.ics").Select(f => Path.GetFileNameWithoutExtension(f)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Malformed))]
    public void A_malformed_calendar_gives_clear_problems(string name)
    {
        string path = Path.Combine(TestFiles.Cases("busy"), name + ".ics");
        Interval horizon = new(Instant.FromUtc(2026, 11, 1, 0, 0), Instant.FromUtc(2027, 1, 1, 0, 0));
        ReadResult<BusyTimes> result = BusyFile.Read(path, DateTimeZoneProviders.Tzdb["Europe/London"], horizon);
        Assert.False(result.IsOk);
        Assert.All(result.Problems, p => Assert.Equal(path, p.File));
        ProblemChecks.Match(result.Problems, Path.ChangeExtension(path, ".expected.txt"));
    }

    [Fact]
    public void A_file_that_is_not_there_is_named()
    {
        ReadResult<BusyTimes> result = BusyFile.Read("nowhere/none.ics", DateTimeZone.Utc, new Interval(Instant.FromUtc(2026, 1, 1, 0, 0), Instant.FromUtc(2026, 2, 1, 0, 0)));
        Assert.Equal("nowhere/none.ics:1: There is no such file.", Assert.Single(result.Problems).ToString());
    }
}
