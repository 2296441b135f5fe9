using System.Collections.Concurrent;

using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Laboratory;

/// <summary>What a count of correct answers says of ability some days later, computed once by the production's own code and kept: simulated tests repeat.</summary>
internal sealed class LikelihoodTable
{
    /// <summary>Distance between abilities, in logits.</summary>
    public const double Step = 0.2;

    private static readonly LocalDate _day = new(2026, 1, 1);

    private readonly ConcurrentDictionary<(double Guess, int Items, int Low, int High, int Age), double[]> known = new();

    /// <summary>The abilities.</summary>
    public static AbilityGrid Grid { get; } = AbilityGrid.WithStep(StandingAssumptions.Default.MeanAbility, Step);

    /// <summary>Logarithm of the likelihood at the grid's abilities; its largest is about 0.</summary>
    /// <param name="guess">Chance of guessing right.</param>
    /// <param name="count">Correct answers.</param>
    /// <param name="age">Days since the test.</param>
    public double[] LogLikelihood(double guess, TopicCount count, int age)
    {
        (double, int, int, int, int) key = (guess, count.Items, count.LowCorrect, count.HighCorrect, age);
        return known.TryGetValue(key, out double[]? found) ? found : known.GetOrAdd(key, Compute(guess, count, age));
    }

    /// <summary>Adds the values of a function at abilities moved by <paramref name="shift"/> logits.</summary>
    /// <remarks>Cubic through four neighbours (Catmull &amp; Rom 1974); beyond the grid the function stays at its end values.</remarks>
    public static void AddShifted(ReadOnlySpan<double> values, double shift, Span<double> target)
    {
        if (shift == 0)
        {
            Spans.Add(values, target);
            return;
        }

        double place = shift / Step;
        int whole = (int)Math.Floor(place);
        double u = place - whole;
        double v = u * u;
        double w = v * u;
        double a = v - (0.5 * (w + u));
        double b = (1.5 * w) - (2.5 * v) + 1;
        double c = (2 * v) - (1.5 * w) + (0.5 * u);
        double d = 0.5 * (w - v);

        // Inside, all four neighbours are on the grid.
        int from = Math.Clamp(1 - whole, 0, target.Length);
        int to = Math.Clamp(values.Length - 2 - whole, from, target.Length);
        for (int i = 0; i < from; i++)
        {
            target[i] += values[0];
        }

        Span<double> inner = target[from..to];
        Spans.AddScaled(values.Slice(from + whole - 1, inner.Length), a, inner);
        Spans.AddScaled(values.Slice(from + whole, inner.Length), b, inner);
        Spans.AddScaled(values.Slice(from + whole + 1, inner.Length), c, inner);
        Spans.AddScaled(values.Slice(from + whole + 2, inner.Length), d, inner);
        for (int i = to; i < target.Length; i++)
        {
            target[i] += values[^1];
        }
    }

    private static double[] Compute(double guess, TopicCount count, int age)
    {
        AbilityGrid fine = AbilityGrid.For(StandingAssumptions.Default.MeanAbility, count.Items);
        double[] likelihood = TopicLikelihood.Build(
            [new DatedObservation(_day, AttemptKind.Diagnostic, "test", count)], _day.PlusDays(age), new ResponseCurve(guess), fine, StandingAssumptions.Default, null, (_, _) => 0).Values;
        int stride = (int)Math.Round(Step / fine.Step);
        double[] logs = new double[Grid.Count];
        for (int i = 0; i < logs.Length; i++)
        {
            logs[i] = Math.Log(Math.Max(1e-300, likelihood[i * stride]));
        }

        return logs;
    }
}
