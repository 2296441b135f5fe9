using System.Collections.Concurrent;
using System.Globalization;

namespace Homestretch.Load;

/// <summary>How long visits took, page by page.</summary>
internal sealed class Latencies
{
    /// <summary>The goal: the 95th percentile of pages stays below this, in milliseconds.</summary>
    public const double Goal = 100;

    private readonly ConcurrentDictionary<string, ConcurrentBag<(double Milliseconds, bool Fine)>> _visits = new();

    /// <summary>Notes a visit.</summary>
    public void Add(string page, double milliseconds, bool fine) => _visits.GetOrAdd(page, _ => []).Add((milliseconds, fine));

    /// <summary>Prints the table; returns how many visits were errors.</summary>
    public int Print(TextWriter output)
    {
        output.WriteLine($"{"page",-16}{"visits",8}{"median",10}{"95 %",10}{"99 %",10}{"most",10}{"errors",8}   (milliseconds from the moment a visit was due)");
        int errors = 0;
        foreach ((string page, _) in Visitors.Mix)
        {
            (double Milliseconds, bool Fine)[] visits = _visits.TryGetValue(page, out ConcurrentBag<(double, bool)>? bag) ? [.. bag] : [];
            if (visits.Length == 0)
            {
                continue;
            }

            double[] sorted = [.. visits.Select(v => v.Milliseconds).Order()];
            int wrong = visits.Count(v => !v.Fine);
            errors += wrong;
            double high = At(sorted, 0.95);
            string goal = page.StartsWith("tap", StringComparison.Ordinal) ? "" : high < Goal ? "   below 100 ms" : "   NOT below 100 ms";
            output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{page,-16}{visits.Length,8}{At(sorted, 0.5),10:0.0}{high,10:0.0}{At(sorted, 0.99),10:0.0}{sorted[^1],10:0.0}{wrong,8}{goal}"));
        }

        return errors;
    }

    // The smallest value that at least this share of all values does not exceed.
    private static double At(double[] sorted, double share) => sorted[Math.Max(0, (int)Math.Ceiling(share * sorted.Length) - 1)];
}
