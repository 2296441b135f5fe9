namespace Homestretch.Files.Calendars;

/// <summary>How many repetitions a file may make the reader look at, so that a hostile or broken rule cannot keep it busy.</summary>
internal sealed class RecurrenceBudget
{
    /// <summary>Most repetitions of one rule: more than an event every quarter of an hour for nearly three years.</summary>
    public const long MostOfOneRule = 100_000;

    private const long MostOfFile = 500_000;

    private long left = MostOfFile;

    /// <summary>Takes what a rule needs; false when it, or the whole file, needs too much.</summary>
    public bool TryTake(long repetitions)
    {
        if (repetitions > MostOfOneRule || repetitions > left)
        {
            return false;
        }

        left -= repetitions;
        return true;
    }
}
