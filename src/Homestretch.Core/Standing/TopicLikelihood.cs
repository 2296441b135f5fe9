using Homestretch.Core.Evidence;

using NodaTime;

namespace Homestretch.Core.Standing;

/// <summary>What all evidence on one topic says about today's ability on it: a likelihood on the ability grid.</summary>
/// <remarks>Items of one kind of test taken on one day share that test's difficulty on the topic; tests known to differ in difficulty are two tests. From one day to the next ability drifts, so
/// what an older day says is widened before it is joined with the next: the exact message passing of a random walk. Items of a bank enter with
/// their own curves; how hard they are is known, so they need no allowance for the test's difficulty. Neither do the items that priors were learned on:
/// the topic's prior mean is that of these very items.</remarks>
internal static class TopicLikelihood
{
    /// <summary>The likelihood of <paramref name="evidence"/> at each grid point, scaled to a maximum of 1; all ones without evidence.</summary>
    /// <param name="evidence">What was seen on the topic.</param>
    /// <param name="asOf">The day to speak of.</param>
    /// <param name="unstudied">The topic's curve for the ability of the grid, which is the ability without study.</param>
    /// <param name="grid">The abilities.</param>
    /// <param name="assumptions">Spreads and drift.</param>
    /// <param name="bank">Calibrated items, or null.</param>
    /// <param name="gain">By how much study had lifted the topic, in logits, when a test of a kind was taken on a day.</param>
    public static ScaledLikelihood Build(
        IEnumerable<DatedObservation> evidence,
        LocalDate asOf,
        ResponseCurve unstudied,
        AbilityGrid grid,
        StandingAssumptions assumptions,
        ItemBank? bank,
        Func<LocalDate, AttemptKind, double> gain)
    {
        double logScale = 0;
        double[] message = new double[grid.Count];
        Array.Fill(message, 1.0);
        LocalDate? previous = null;
        foreach (IGrouping<LocalDate, DatedObservation> day in evidence.GroupBy(e => e.Date).OrderBy(g => g.Key))
        {
            if (previous is { } earlier)
            {
                message = Drift(message, earlier, day.Key, grid, assumptions);
            }

            foreach (IGrouping<(AttemptKind Kind, bool Learned, double Ease), DatedObservation> test in day
                .GroupBy(e => (e.Kind, assumptions.IsLearnedOn(e.Test), e.Ease)).OrderBy(g => g.Key))
            {
                // Study and an easier test than the exam both let a person answer as one of higher ability would, without study, on the exam.
                ResponseCurve curve = unstudied with { Shift = unstudied.Shift + gain(day.Key, test.Key.Kind) + test.Key.Ease };
                CalibratedEvidence? calibrated = bank is null ? null : new CalibratedEvidence(bank, curve, grid, assumptions);
                List<DatedObservation> others = [.. test.Where(e => calibrated?.Knows(e) != true)];
                if (others.Count > 0)
                {
                    (double shift, double sd) = assumptions.EvidenceItems(others[0].Observation.Topic, others[0].Test, Math.Max(1, others.Sum(e => e.Observation.ItemCount)));
                    double[] likelihood = OfOneTest(others.Select(e => e.Observation), curve with { Shift = curve.Shift + shift }, grid);
                    Spans.Multiply(message, new GaussianKernel(sd, grid.Step).SmoothLevelling(likelihood), message);
                }

                calibrated?.Weigh(test, message);
                double top = Spans.Max(message);
                logScale += Math.Log(top);
                Spans.Divide(message, top);
            }

            previous = day.Key;
        }

        return new ScaledLikelihood(previous is { } last ? Drift(message, last, asOf, grid, assumptions) : message, logScale);
    }

    private static double[] Drift(double[] message, LocalDate from, LocalDate to, AbilityGrid grid, StandingAssumptions assumptions)
    {
        int days = Math.Max(0, Period.DaysBetween(from, to));
        double variance = days * assumptions.DriftVariancePerDay;
        return variance == 0 ? message : new GaussianKernel(Math.Sqrt(variance), grid.Step).SmoothLevelling(message);
    }

    private static double[] OfOneTest(IEnumerable<Observation> observations, ResponseCurve curve, AbilityGrid grid)
    {
        int correct = 0;
        int wrong = 0;
        List<TopicCount> ranges = [];
        foreach (Observation observation in observations)
        {
            switch (observation)
            {
                case ItemResponse response:
                    correct += response.Correct ? 1 : 0;
                    wrong += response.Correct ? 0 : 1;
                    break;
                case TopicCount { IsExact: true } count:
                    correct += count.LowCorrect;
                    wrong += count.Items - count.LowCorrect;
                    break;
                case TopicCount range:
                    ranges.Add(range);
                    break;
                default:
                    throw new ArgumentException($"No likelihood is known for {observation}.", nameof(observations));
            }
        }

        double[] logs = new double[grid.Count];
        for (int i = 0; i < logs.Length; i++)
        {
            double chance = curve.Chance(grid[i]);
            double logRight = Math.Log(chance);
            double logWrong = Math.Log(1 - chance);
            double sum = (correct * logRight) + (wrong * logWrong);
            foreach (TopicCount range in ranges)
            {
                sum += LogOfRange(range, logRight, logWrong);
            }

            logs[i] = sum;
        }

        Spans.ExpFromMax(logs, logs);
        return logs;
    }

    // log of the chance of a count between Low and High, summed from the largest term so that nothing underflows.
    private static double LogOfRange(TopicCount range, double logRight, double logWrong)
    {
        double top = double.NegativeInfinity;
        Span<double> terms = range.Items < 256 ? stackalloc double[range.HighCorrect - range.LowCorrect + 1] : new double[range.HighCorrect - range.LowCorrect + 1];
        for (int k = range.LowCorrect; k <= range.HighCorrect; k++)
        {
            double term = MathNet.Numerics.SpecialFunctions.BinomialLn(range.Items, k) + (k * logRight) + ((range.Items - k) * logWrong);
            terms[k - range.LowCorrect] = term;
            top = Math.Max(top, term);
        }

        double sum = 0;
        foreach (double term in terms)
        {
            sum += Math.Exp(term - top);
        }

        return top + Math.Log(sum);
    }
}
