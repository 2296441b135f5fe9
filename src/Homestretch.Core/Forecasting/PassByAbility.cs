using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>How the chance of passing depends on a person's abilities, as things stand.</summary>
/// <remarks>Were all abilities known, the exam's draw of items and its form would still be left to chance. That pass chance is what a diagnostic tries to
/// find out; the forecast is its posterior mean. Not safe for use by several threads at once: it keeps its buffers.</remarks>
public sealed class PassByAbility
{
    // Differences of pass chances are wanted here, so the nodes of ability lie closer; three for the form are then good to 1e-5.
    private static readonly QuadratureDetail Detail = new(0.7, 1e-7, 3, 1, 0);

    // Abilities less likely than this, against the likeliest, are left out.
    private const double Negligible = 1e-9;

    private readonly Exam exam;
    private readonly AbilityPosterior posterior;
    private readonly ScoreModel model;
    private readonly PassRule rule;
    private readonly int[] starts;
    private readonly double[][][] counts;
    private readonly double[][] sections;
    private readonly double[] spare;

    /// <param name="exam">The exam.</param>
    /// <param name="posterior">What is known of the person.</param>
    public PassByAbility(Exam exam, AbilityPosterior posterior)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(posterior);
        this.exam = exam;
        this.posterior = posterior;
        model = new ScoreModel(exam, posterior, null, Detail);
        rule = new PassRule(exam);
        starts = new int[exam.Topics.Length];
        counts = [.. model.Forms.Select(_ => new double[exam.Topics.Length][])];
        for (int t = 0; t < starts.Length; t++)
        {
            double[] marginal = posterior.Marginal(t);
            double floor = Negligible * Spans.Max(marginal);
            starts[t] = Array.FindIndex(marginal, d => d > floor);
            int points = Array.FindLastIndex(marginal, d => d > floor) + 1 - starts[t];
            for (int form = 0; form < counts.Length; form++)
            {
                counts[form][t] = Counts(t, points, model.Forms[form].At);
            }
        }

        sections = [.. exam.Sections.Select(s => new double[s.ScoredItems + 1])];
        spare = new double[exam.Sections.Max(s => s.ScoredItems) + 1];
    }

    /// <summary>The pass chance of somebody whose abilities are known.</summary>
    /// <param name="abilities">For each topic the index of the ability on the posterior's grid; one that the posterior holds for impossible counts as the nearest that it does not.</param>
    public double PassChance(ReadOnlySpan<int> abilities)
    {
        double pass = 0;
        for (int form = 0; form < counts.Length; form++)
        {
            for (int s = 0, t = 0; s < sections.Length; s++)
            {
                // Sums go to and fro between the two buffers; the first one is chosen so that the last sum ends in the section's own.
                int topics = exam.Sections[s].Topics.Length;
                double[] from = topics % 2 == 0 ? sections[s] : spare;
                double[] to = topics % 2 == 0 ? spare : sections[s];
                from[0] = 1;
                int length = 1;
                for (int end = t + topics; t < end; t++)
                {
                    ReadOnlySpan<double> count = CountsAt(form, t, abilities[t]);
                    Span<double> sum = to.AsSpan(0, length + count.Length - 1);
                    sum.Clear();
                    if (length > count.Length)
                    {
                        Convolution.Add(from.AsSpan(0, length), count, 1, sum);
                    }
                    else
                    {
                        Convolution.Add(count, from.AsSpan(0, length), 1, sum);
                    }

                    length = sum.Length;
                    (from, to) = (to, from);
                }
            }

            pass += model.Forms[form].Weight * rule.PassChance(sections);
        }

        return pass;
    }

    /// <summary>For each topic, its ability together with a pass.</summary>
    internal AbilityWithPass[] Joint()
    {
        AbilityWithPass[] joint = [.. exam.Topics.Select((topic, t) =>
        {
            int points = counts[0][t].Length / (topic.Items + 1);
            return new AbilityWithPass(starts[t], new double[points], new double[points]);
        })];
        model.VisitWorths((shift, node, weight, worths) =>
        {
            int form = model.Forms.TakeWhile(f => f.At != shift).Count();
            for (int t = 0; t < joint.Length; t++)
            {
                ConditionalAbility conditional = posterior.Conditional(t, node);
                int from = Math.Max(conditional.Start, starts[t]);
                int to = Math.Min(conditional.Start + conditional.Density.Length, starts[t] + joint[t].Density.Length);
                for (int point = from; point < to; point++)
                {
                    double part = weight * conditional.Density[point - conditional.Start];
                    joint[t].Density[point - starts[t]] += part;
                    joint[t].Passing[point - starts[t]] += part * Spans.Dot(worths[t], CountsAt(form, t, point));
                }
            }
        });
        return joint;
    }

    private ReadOnlySpan<double> CountsAt(int form, int topic, int ability)
    {
        int width = exam.Topics[topic].Items + 1;
        double[] all = counts[form][topic];
        return all.AsSpan(Math.Clamp((ability - starts[topic]) * width, 0, all.Length - width), width);
    }

    // Point after point, the chance of 0, 1, ... correct answers; the exam's items on the topic are one more draw from the pool.
    private double[] Counts(int topic, int points, double form)
    {
        ExamTopic examTopic = exam.Topics[topic];
        AbilityGrid grid = posterior.Grid;
        ResponseCurve curve = posterior.ExamCurve(topic, examTopic.Name);
        GaussianKernel draw = new(posterior.Assumptions.ExamTopicFormSd(examTopic.Name, examTopic.Items), grid.Step);
        double[] chances = new double[points + (2 * draw.Reach)];
        for (int i = 0; i < chances.Length; i++)
        {
            chances[i] = curve.Chance(grid[starts[topic] - draw.Reach + i] + form);
        }

        int width = examTopic.Items + 1;
        double[] table = new double[width * chances.Length];
        BinomialTable.Fill(examTopic.Items, chances, table);
        double[] result = new double[points * width];
        for (int count = 0; count < width; count++)
        {
            ReadOnlySpan<double> row = table.AsSpan(count * chances.Length, chances.Length);
            for (int i = 0; i < points; i++)
            {
                result[(i * width) + count] = draw.Weigh(draw.Reach + i, row);
            }
        }

        return result;
    }
}
