using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Forecasting;

/// <summary>The exam's rule in counts of correct answers.</summary>
internal sealed class PassRule
{
    public PassRule(Exam exam)
    {
        SectionMinimum = [.. exam.Sections.Select(s => exam.Rule == OverallRule.Total ? 0 : s.Cut?.RequiredCorrect(s.ScoredItems) ?? 0)];
        Total = exam.Rule == OverallRule.EverySection ? 0 : exam.TotalCut!.RequiredCorrect(exam.ScoredItems);
    }

    private PassRule(int sections, int total)
    {
        SectionMinimum = new int[sections];
        Total = total;
    }

    /// <summary>A mark on the total in place of the exam's own rule.</summary>
    public static PassRule OfTotal(Exam exam, CutScore cut) => new(exam.Sections.Length, cut.RequiredCorrect(exam.ScoredItems));

    /// <summary>Fewest correct answers in each section; 0 where it has no say.</summary>
    public int[] SectionMinimum { get; }

    /// <summary>Fewest correct answers in all; 0 where only the sections decide.</summary>
    public int Total { get; }

    /// <summary>Whether these correct answers per section pass.</summary>
    public bool Passes(IReadOnlyList<int> correct) => correct.Sum() >= Total && correct.Zip(SectionMinimum).All(s => s.First >= s.Second);

    /// <summary>The chance to pass where the sections' counts are independent with these distributions.</summary>
    public double PassChance(IReadOnlyList<double[]> distributions)
    {
        if (Total == 0)
        {
            double pass = 1;
            for (int s = 0; s < distributions.Count; s++)
            {
                pass *= Tail(distributions[s], SectionMinimum[s]);
            }

            return pass;
        }

        double[] all = [1.0];
        for (int s = 0; s < distributions.Count; s++)
        {
            all = Convolution.Of(all, distributions[s], SectionMinimum[s]);
        }

        return Math.Min(1, Tail(all, Total));
    }

    /// <summary>For one section: the chance to pass the whole exam with each of its counts, given the distributions of the other sections.</summary>
    public void Value(int section, IReadOnlyList<double[]> distributions, Span<double> value)
    {
        double[] others = [1.0];
        for (int s = 0; s < distributions.Count; s++)
        {
            if (s != section)
            {
                others = Total == 0
                    ? [others[0] * Tail(distributions[s], SectionMinimum[s])]
                    : Convolution.Of(others, distributions[s], SectionMinimum[s]);
            }
        }

        // others[i]: chance that the other sections reach their minimums with i correct; tail: with at least i correct.
        for (int i = others.Length - 2; i >= 0; i--)
        {
            others[i] += others[i + 1];
        }

        for (int count = 0; count < value.Length; count++)
        {
            int needed = Math.Max(0, Total - count);
            value[count] = count < SectionMinimum[section] || needed >= others.Length ? 0 : others[needed];
        }
    }

    internal static double Tail(ReadOnlySpan<double> distribution, int from)
    {
        double sum = 0;
        for (int i = distribution.Length - 1; i >= Math.Max(0, from); i--)
        {
            sum += distribution[i];
        }

        return sum;
    }
}
