using CsCheck;

using Homestretch.Core.Words;

using NodaTime;

namespace Homestretch.Core.Tests.Words;

/// <summary>The best days for further recalls: against every choice of days, as what it gives away of the chance on exam day.</summary>
public sealed class BestRecallsTests
{
    private static readonly LocalDate _today = new(2026, 12, 13);
    private static readonly WordAssumptions _assumed = WordAssumptions.Default;

    /// <summary>Up to 18 days and four recalls: every set of days.</summary>
    [Fact]
    public void WithWeeksToGoItIsTheBestOfAllChoices() => Gen.Select(WordMemoryTests.Words, Gen.Int[1, 18]).Sample((word, days) => Assert.InRange(Lost(word, days, 4), -1e-9, 0.0005), iter: 60);

    /// <summary>Up to 182 days and two recalls, up to 60 and three: days that are not looked at one by one when a recall is added are found by moving.</summary>
    [Fact]
    public void WithMonthsToGoItGivesAwayLessThanATenthOfARecallsPrice()
        => Gen.Select(WordMemoryTests.Words, Gen.Int[41, 182]).Sample((word, days) => Assert.InRange(Lost(word, days, days <= 60 ? 3 : 2), -1e-9, _assumed.LeastGain / 10), iter: 20);

    // The most that is given away with one, two ... recalls.
    private static double Lost(Word word, int days, int most)
    {
        LocalDate exam = _today.PlusDays(days);
        WordMemory memory = new(word, _assumed);
        BestRecalls best = new(memory, _today, new RecallTable(_assumed.Learning, word.Noted, exam));
        double lost = 0;
        for (int n = 0; n <= most; n++)
        {
            double every = Every(memory, exam, new LocalDate[n], 0, _today);
            Assert.Equal(every < 0, best.Strength(n) is null);
            lost = best.Strength(n) is { } strength ? Math.Max(lost, every - memory.Known(strength)) : lost;
            Assert.True(every < 0 || memory.Known(best.Strength(n)!.Value) <= every + 1e-9);
        }

        return lost;
    }

    // The best chance over all ways to choose the rest of the days; below zero where there are none.
    private static double Every(WordMemory memory, LocalDate exam, LocalDate[] chosen, int next, LocalDate from)
    {
        if (next == chosen.Length)
        {
            return memory.RecallDays > 0 || next == 0 || chosen[0] < exam.PlusDays(-1) ? memory.Chance(exam, chosen) : -1;
        }

        double best = -1;
        for (LocalDate day = from; day < exam; day = day.PlusDays(1))
        {
            chosen[next] = day;
            best = Math.Max(best, Every(memory, exam, chosen, next + 1, day.PlusDays(1)));
        }

        return best;
    }
}
