namespace Homestretch.Core.Laboratory;

/// <summary>Counts of what became of candidates. Adding tallies in any order gives the same sums: they are of whole numbers.</summary>
internal sealed class Tally(int policies)
{
    /// <summary>Tenths of the scale by which forecasts are judged.</summary>
    public const int Bins = 10;

    private const double Billion = 1e9;

    private readonly long[] both = new long[policies * policies];
    private readonly long[] minutes = new long[policies];
    private readonly long[] forecasts = new long[policies * 2 * Bins];
    private readonly long[] forecastPasses = new long[policies * 2 * Bins];
    private readonly long[] forecastBillionths = new long[policies * 2 * Bins];

    /// <summary>Candidates.</summary>
    public long Candidates { get; private set; }

    /// <summary>Adds one candidate.</summary>
    /// <param name="outcomes">One per policy.</param>
    public void Add(ReadOnlySpan<CandidateOutcome> outcomes)
    {
        Candidates++;
        for (int p = 0; p < outcomes.Length; p++)
        {
            CandidateOutcome outcome = outcomes[p];
            minutes[p] += outcome.Minutes;
            AddForecast(p, 0, outcome.ForecastAtPlan, outcome.Passed);
            AddForecast(p, 1, outcome.ForecastOnEve, outcome.Passed);
            for (int q = 0; q < outcomes.Length; q++)
            {
                both[(p * policies) + q] += outcome.Passed && outcomes[q].Passed ? 1 : 0;
            }
        }
    }

    /// <summary>Adds all of another tally.</summary>
    public void Add(Tally other)
    {
        Candidates += other.Candidates;
        Sum(other.both, both);
        Sum(other.minutes, minutes);
        Sum(other.forecasts, forecasts);
        Sum(other.forecastPasses, forecastPasses);
        Sum(other.forecastBillionths, forecastBillionths);
    }

    /// <summary>Candidates who pass under both policies.</summary>
    public long PassBoth(int policy, int other) => both[(policy * policies) + other];

    /// <summary>Candidates who pass.</summary>
    public long Passes(int policy) => PassBoth(policy, policy);

    /// <summary>Mean hours of study that took place.</summary>
    public double MeanHours(int policy) => minutes[policy] / 60.0 / Candidates;

    /// <summary>How one policy's forecasts held, made with the first plan or on the eve of the exam.</summary>
    public ForecastCheck Check(int policy, bool onEve)
    {
        int first = Place(policy, onEve ? 1 : 0, 0);
        return ForecastCheck.Of(forecasts.AsSpan(first, Bins), forecastBillionths.AsSpan(first, Bins), forecastPasses.AsSpan(first, Bins), Billion);
    }

    private static int Place(int policy, int time, int bin) => (((policy * 2) + time) * Bins) + bin;

    private static void Sum(long[] from, long[] to)
    {
        for (int i = 0; i < to.Length; i++)
        {
            to[i] += from[i];
        }
    }

    private void AddForecast(int policy, int time, double forecast, bool passed)
    {
        int at = Place(policy, time, Math.Min(Bins - 1, (int)(forecast * Bins)));
        forecasts[at]++;
        forecastPasses[at] += passed ? 1 : 0;
        forecastBillionths[at] += (long)Math.Round(forecast * Billion);
    }
}
