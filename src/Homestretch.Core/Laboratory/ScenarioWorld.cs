using Homestretch.Core.Planning.Calendar;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>All exams and calendars of one scenario, made once and shared by all threads.</summary>
internal sealed class ScenarioWorld
{
    private const int Weekdays = 7;

    private readonly ExamWorld[] exams;
    private readonly StudyTime[] times;

    public ScenarioWorld(Scenario scenario, long seed, int examCount)
    {
        Scenario = scenario;
        Seed = seed;
        exams = [.. Enumerable.Range(0, examCount).Select(i => ExamWorld.Draw(scenario, seed, i))];
        times = [.. from free in Calendars.All
                    from weekday in Enumerable.Range(0, Weekdays)
                    from days in Enumerable.Range(scenario.FewestDays, scenario.MostDays - scenario.FewestDays + 1)
                    select new StudyTime(
                        SlotFinder.Find(free, [], From(weekday).AtMidnight().InUtc(), From(weekday).PlusDays(days)).Slots, From(weekday), days, scenario.DaysBetweenQuizzes)];
    }

    public Scenario Scenario { get; }

    public long Seed { get; }

    /// <summary>What tests say of ability, kept for all candidates.</summary>
    public LikelihoodTable Likelihoods { get; } = new();

    /// <summary>The exam, calendar and number of days of a candidate.</summary>
    public Setting Draw(int candidate)
    {
        RandomSequence random = new(Seed, Draws.Setting, candidate);
        ExamWorld exam = exams[random.Below(exams.Length)];
        int calendar = random.Below(Calendars.All.Length);
        int weekday = random.Below(Weekdays);
        int days = random.Between(Scenario.FewestDays, Scenario.MostDays);
        int lengths = Scenario.MostDays - Scenario.FewestDays + 1;
        return new Setting(exam, times[(((calendar * Weekdays) + weekday) * lengths) + days - Scenario.FewestDays]);
    }

    private static LocalDate From(int weekday) => Calendars.FirstMonday.PlusDays(weekday);
}
