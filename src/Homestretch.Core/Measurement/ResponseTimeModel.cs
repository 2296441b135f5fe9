namespace Homestretch.Core.Measurement;

/// <summary>The log-normal response-time model (van der Linden 2006): the logarithm of seconds is the item's time intensity less the person's speed,
/// with a normal error whose spread belongs to the item.</summary>
/// <remarks>Marginal maximum likelihood with normal speed of mean 0, by the EM algorithm; each step is in closed form.</remarks>
public static class ResponseTimeModel
{
    /// <summary>Items with fewer times have no parameters.</summary>
    public const int FewestTimes = 3;

    // Clocks count in seconds or tenths: no item's times agree better than this, and a likelihood without a floor has no maximum.
    private const double LeastSpread = 0.02;
    private const int MostSteps = 20_000;
    private const double Enough = 1e-11;

    /// <summary>The fitted model, or null and the reason in <paramref name="refusal"/>.</summary>
    public static ResponseTimeFit? Fit(ItemScores scores, out string refusal)
    {
        ArgumentNullException.ThrowIfNull(scores);
        int persons = scores.Persons.Length;
        int items = scores.Items.Length;
        int[] counts = [.. Enumerable.Range(0, items).Select(j => scores.Persons.Count(p => p.Answers[j].Seconds is not null))];
        int[] usable = [.. Enumerable.Range(0, items).Where(j => counts[j] >= FewestTimes)];
        (int Item, double Log)[][] logs =
            [.. scores.Persons.Select(p => usable.Where(j => p.Answers[j].Seconds is not null).Select(j => (j, Math.Log(p.Answers[j].Seconds!.Value))).ToArray())];
        if (usable.Length < 2 || logs.Count(l => l.Length >= 2) < FewestTimes)
        {
            refusal = counts.Sum() == 0
                ? "No times were recorded."
                : $"Too few times: at least two items need times from {FewestTimes} people each.";
            return null;
        }

        refusal = "";
        double[] intensity = new double[items];
        double[] variance = new double[items];
        double[] slow = new double[persons];
        double[] error = new double[persons];
        foreach (int j in usable)
        {
            double[] own = [.. logs.SelectMany(l => l).Where(t => t.Item == j).Select(t => t.Log)];
            intensity[j] = own.Average();
            variance[j] = Math.Max(LeastSpread * LeastSpread, own.Average(t => (t - intensity[j]) * (t - intensity[j])) / 2);
        }

        double between = usable.Average(j => variance[j]);
        double likelihood = double.NegativeInfinity;
        for (int step = 0; step < MostSteps; step++)
        {
            double now = Locate(logs, intensity, variance, between, slow, error);
            if (now - likelihood < Enough * Math.Abs(now) && step > 10)
            {
                likelihood = now;
                break;
            }

            likelihood = now;
            between = Maximise(logs, usable, intensity, variance, slow, error, between);
        }

        return new ResponseTimeFit(
            [.. Enumerable.Range(0, items).Select(j => Timing(scores.Items[j], counts[j], intensity[j], variance[j]))],
            [.. Enumerable.Range(0, persons).Select(i => new PersonSpeed(scores.Persons[i].Person, logs[i].Length, -slow[i], Math.Sqrt(error[i])))],
            Math.Sqrt(between),
            likelihood,
            logs.Sum(l => l.Length));
    }

    private static ItemTiming Timing(TestItem item, int count, double intensity, double variance)
    {
        Statistic few = Statistic.Refused($"Fewer than {FewestTimes} times.");
        return count < FewestTimes
            ? new ItemTiming(item, count, few, few)
            : new ItemTiming(item, count, Statistic.Of(intensity), Statistic.Of(Math.Sqrt(variance)));
    }

    // Posterior of each person's slowness given the items; returns the log-likelihood.
    private static double Locate((int Item, double Log)[][] logs, double[] intensity, double[] variance, double between, double[] slow, double[] error)
    {
        double likelihood = 0;
        for (int i = 0; i < logs.Length; i++)
        {
            double precision = 1 / between;
            double weighted = 0;
            double squares = 0;
            double logDeterminant = Math.Log(between);
            foreach ((int j, double log) in logs[i])
            {
                double gap = log - intensity[j];
                precision += 1 / variance[j];
                weighted += gap / variance[j];
                squares += gap * gap / variance[j];
                logDeterminant += Math.Log(variance[j]);
            }

            slow[i] = weighted / precision;
            error[i] = 1 / precision;
            if (logs[i].Length > 0)
            {
                likelihood -= 0.5 * ((logs[i].Length * Math.Log(2 * Math.PI)) + logDeterminant + Math.Log(precision) + squares - (weighted * weighted / precision));
            }
        }

        return likelihood;
    }

    private static double Maximise(
        (int Item, double Log)[][] logs, int[] usable, double[] intensity, double[] variance, double[] slow, double[] error, double between)
    {
        int items = intensity.Length;
        double[] sums = new double[items];
        double[] counts = new double[items];
        for (int i = 0; i < logs.Length; i++)
        {
            foreach ((int j, double log) in logs[i])
            {
                sums[j] += log - slow[i];
                counts[j]++;
            }
        }

        foreach (int j in usable)
        {
            intensity[j] = sums[j] / counts[j];
        }

        double[] squares = new double[items];
        double spread = 0;
        int timed = 0;
        for (int i = 0; i < logs.Length; i++)
        {
            foreach ((int j, double log) in logs[i])
            {
                double gap = log - intensity[j] - slow[i];
                squares[j] += (gap * gap) + error[i];
            }

            if (logs[i].Length > 0)
            {
                spread += (slow[i] * slow[i]) + error[i];
                timed++;
            }
        }

        foreach (int j in usable)
        {
            variance[j] = Math.Max(LeastSpread * LeastSpread, squares[j] / counts[j]);
        }

        return timed == 0 ? between : Math.Max(1e-8, spread / timed);
    }
}
