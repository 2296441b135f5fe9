using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>Pass chances after study, quickly: for comparing thousands of plans of one person, or planning for thousands of people.</summary>
/// <remarks>
/// <para>As in <see cref="ScoreModel"/> topics are independent given the overall ability, the form and the rate of learning. Here each topic's count is known by its first four
/// cumulants only, tabulated over the shift that study brings and interpolated; a section's are their sums, and its chance to reach a mark follows from the normal curve after
/// Cornish and Fisher (1938), at the half between two counts.</para>
/// <para>A topic's change of effort costs about 20 ns per condition and section; set-up costs about topics x ability nodes x 0.2 us. Nothing is allocated once the largest case has been seen.
/// Not safe for use by several threads at once.</para>
/// </remarks>
public sealed class QuickScoreModel
{
    private const double UsualKnotSpacing = 0.2;
    private const double FurthestShift = 6;
    private const double NegligibleDensity = 1e-6;

    // Points of a density lie at most this many of its standard deviations apart; the trapezoidal rule is then good to 1e-9.
    private const double PointSpacingInSds = 0.9;

    private readonly Exam exam;
    private readonly PassRule rule;
    private readonly QuadratureDetail detail;
    private readonly int[] sectionOf;
    private readonly SectionMark[] marks;
    private readonly double[] gained;
    private readonly double[] hours;
    private readonly bool[] risen;
    private readonly TopicCumulants[] topics;
    private readonly List<CurveMoments> curves = [];
    private readonly bool truncates;
    private readonly Cumulants[] partials;
    private readonly Vector256<double>[] passRises;
    private readonly Vector256<double>[] scoreRises;
    private ScoreCondition[] conditions = [];
    private int[] nodes = [];
    private int groups;
    private Vector256<double>[] weights = [];
    private Vector256<double>[] rates = [];
    private Cumulants[] parts = [];
    private Cumulants[] rises = [];
    private Cumulants[] sums = [];
    private Vector256<double>[] reached = [];
    private readonly double wishedSpacing;
    private double knotSpacing;
    private int lowestKnot;

    /// <param name="exam">The exam.</param>
    /// <param name="learning">Assumptions on learning; the documented defaults when null.</param>
    /// <param name="detail">How finely to integrate; <see cref="QuadratureDetail.Coarse"/> when null.</param>
    /// <param name="knotSpacing">About how far tabulated shifts of ability lie apart, in logits.</param>
    public QuickScoreModel(Exam exam, LearningAssumptions? learning = null, QuadratureDetail? detail = null, double knotSpacing = UsualKnotSpacing)
    {
        wishedSpacing = knotSpacing;
        ArgumentNullException.ThrowIfNull(exam);
        this.exam = exam;
        this.detail = detail ?? QuadratureDetail.Coarse;
        Learning = learning ?? LearningAssumptions.Default;
        rule = new PassRule(exam);
        sectionOf = [.. exam.Topics.Select(t => t.SectionIndex)];
        marks = rule.Total > 0 && Array.TrueForAll(rule.SectionMinimum, m => m <= 0)
            ? [new SectionMark(rule.Total, exam.ScoredItems)]
            : [.. exam.Sections.Select((s, i) => new SectionMark(rule.SectionMinimum[i], s.ScoredItems))];
        if (marks.Length == 1)
        {
            // Only one sum counts: the total's, or a single section's with the higher of its two marks.
            Array.Clear(sectionOf);
            marks[0] = marks[0] with { Mark = Math.Max(marks[0].Mark, rule.Total) };
        }

        gained = new double[exam.Topics.Length];
        hours = new double[exam.Topics.Length];
        risen = new bool[exam.Topics.Length];
        topics = [.. exam.Topics.Select(t => new TopicCumulants(t.Items))];
        truncates = marks.Length > 1 && rule.Total > 0;
        partials = new Cumulants[marks.Length];
        passRises = new Vector256<double>[topics.Length];
        scoreRises = new Vector256<double>[topics.Length];
        BreadthFactors = Learning.BreadthFactors(exam);
    }

    /// <summary>Assumptions on learning in use.</summary>
    public LearningAssumptions Learning { get; }

    /// <summary>For each topic, how much an hour moves it against a topic of average size.</summary>
    public IReadOnlyList<double> BreadthFactors { get; }

    /// <summary>Pass chance and expected correct answers at the efforts last set.</summary>
    public QuickScore Score { get; private set; }

    /// <summary>Takes up a person; there is no score before <see cref="Set"/>.</summary>
    /// <param name="posterior">What is known of the person.</param>
    /// <param name="effortNow">Effort per topic that the posterior already contains; none when empty.</param>
    public void Load(AbilityPosterior posterior, ReadOnlySpan<double> effortNow = default)
    {
        ArgumentNullException.ThrowIfNull(posterior);
        double mostGained = 0;
        for (int t = 0; t < gained.Length; t++)
        {
            gained[t] = effortNow.IsEmpty ? 0 : Learning.Effective(effortNow[t]);
            mostGained = Math.Max(mostGained, gained[t]);
        }

        conditions = ScoreConditions.Of(posterior, Learning, detail, out nodes);
        double easiest = conditions.Max(c => c.Form);
        double hardest = conditions.Min(c => c.Form);
        double fastest = conditions.Max(c => c.Rate);
        int knotStride = Math.Max(1, (int)Math.Round(wishedSpacing / posterior.Grid.Step));
        knotSpacing = knotStride * posterior.Grid.Step;
        lowestKnot = (int)Math.Floor(Math.Max(-FurthestShift, hardest - (fastest * mostGained)) / knotSpacing) - 1;
        int knots = (int)Math.Ceiling(Math.Min(FurthestShift, easiest + (fastest * Learning.SaturationHours)) / knotSpacing) + 3 - lowestKnot;
        int below = Math.Max(0, -lowestKnot * knotStride);
        int above = Math.Max(0, (lowestKnot + knots) * knotStride);
        for (int t = 0; t < topics.Length; t++)
        {
            string name = exam.Topics[t].Name;
            CurveMoments curve = Curve(posterior.Grid, posterior.ExamCurve(t, name), posterior.Assumptions.ExamTopicFormSd(name, exam.Topics[t].Items), below, above);
            topics[t].Load(posterior, t, nodes, curve, lowestKnot, knots, knotStride, PointSpacingInSds, NegligibleDensity);
        }

        Group();
        Array.Fill(hours, double.NaN);
    }

    /// <summary>Sets the effort on every topic: the first thing to do with a person.</summary>
    /// <param name="effort">Hours per topic that count on exam day on a topic of average size: hours x breadth factor x retention. Zero or more.</param>
    public void Set(ReadOnlySpan<double> effort)
    {
        bool moved = false;
        for (int t = 0; t < topics.Length; t++)
        {
            double now = Learning.Effective(effort[t]);
            if (now != hours[t])
            {
                moved = true;
                hours[t] = now;
                Fill(t);
            }
        }

        if (!moved)
        {
            return;
        }

        Array.Clear(sums, 0, marks.Length * groups);
        Vector256<double> correct = Vector256<double>.Zero;
        for (int t = 0; t < topics.Length; t++)
        {
            for (int g = 0; g < groups; g++)
            {
                sums[(g * marks.Length) + sectionOf[t]] += parts[(t * groups) + g];
                correct += weights[g] * parts[(t * groups) + g].Mean;
            }
        }

        for (int s = 0; s < marks.Length; s++)
        {
            RefreshReached(s);
        }

        Score = new QuickScore(PassNow(), Vector256.Sum(correct));
    }

    /// <summary>What one topic's change of effort would lead to.</summary>
    public QuickScore Try(int topic, double effort) => Evaluate(topic, Learning.Effective(effort), -1, 0);

    /// <summary>What two topics' changes of effort would lead to.</summary>
    /// <param name="first">A topic.</param>
    /// <param name="firstEffort">Its new effort.</param>
    /// <param name="second">Another topic.</param>
    /// <param name="secondEffort">Its new effort.</param>
    public QuickScore Try(int first, double firstEffort, int second, double secondEffort)
        => Evaluate(first, Learning.Effective(firstEffort), second, Learning.Effective(secondEffort));

    /// <summary>Sets the effort on one topic.</summary>
    public void Move(int topic, double effort)
    {
        hours[topic] = Learning.Effective(effort);
        Vector256<double> correct = Vector256<double>.Zero;
        for (int g = 0; g < groups; g++)
        {
            Cumulants part = Part(topic, hours[topic], g);
            Cumulants change = part - parts[(topic * groups) + g];
            parts[(topic * groups) + g] = part;
            sums[(g * marks.Length) + sectionOf[topic]] += change;
            correct += weights[g] * change.Mean;
        }

        risen[topic] = false;
        RefreshReached(sectionOf[topic]);
        Score = new QuickScore(PassNow(), Score.Correct + Vector256.Sum(correct));
    }

    /// <summary>How fast pass chance and expected score rise with the effort on each topic, at the efforts last set.</summary>
    /// <param name="slopes">Receives, per topic, the rise per unit of effort.</param>
    public void Slopes(Span<EffortChange> slopes)
    {
        Array.Clear(passRises);
        Array.Clear(scoreRises);
        for (int t = 0; t < topics.Length; t++)
        {
            if (!risen[t])
            {
                FillRises(t);
            }
        }

        for (int g = 0; g < groups; g++)
        {
            Differentiate(sums.AsSpan(g * marks.Length, marks.Length), partials);
            Vector256<double> scale = weights[g] * rates[g];
            for (int t = 0; t < topics.Length; t++)
            {
                ref readonly Cumulants rise = ref rises[(t * groups) + g];
                passRises[t] += scale * Cumulants.Dot(rise, partials[sectionOf[t]]);
                scoreRises[t] += scale * rise.Mean;
            }
        }

        for (int t = 0; t < slopes.Length; t++)
        {
            double factor = (1 - (hours[t] / Learning.SaturationHours)) / knotSpacing;
            slopes[t] = new EffortChange(Vector256.Sum(passRises[t]) * factor, Vector256.Sum(scoreRises[t]) * factor);
        }
    }

    // Conditions by fours; the last ones are repeated without weight.
    private void Group()
    {
        groups = (conditions.Length + 3) / 4;
        if (weights.Length < groups)
        {
            weights = new Vector256<double>[groups];
            rates = new Vector256<double>[groups];
            parts = new Cumulants[topics.Length * groups];
            rises = new Cumulants[topics.Length * groups];
            sums = new Cumulants[marks.Length * groups];
            reached = new Vector256<double>[marks.Length * groups];
        }

        int count = conditions.Length;
        Array.Resize(ref conditions, 4 * groups);
        Array.Fill(conditions, conditions[count - 1] with { Weight = 0 }, count, conditions.Length - count);
        for (int g = 0; g < groups; g++)
        {
            ReadOnlySpan<ScoreCondition> four = conditions.AsSpan(4 * g, 4);
            weights[g] = Vector256.Create(four[0].Weight, four[1].Weight, four[2].Weight, four[3].Weight);
            rates[g] = Vector256.Create(four[0].Rate, four[1].Rate, four[2].Rate, four[3].Rate);
        }
    }

    private CurveMoments Curve(AbilityGrid grid, ResponseCurve curve, double drawSd, int below, int above)
    {
        foreach (CurveMoments known in curves)
        {
            if (known.Fits(grid, curve, drawSd, below, above))
            {
                return known;
            }
        }

        if (curves.Count >= 4 * topics.Length)
        {
            curves.Clear();
        }

        CurveMoments made = new(grid, curve, drawSd, below, above);
        curves.Add(made);
        return made;
    }

    // Where a condition and an amount of study lie among the knots.
    private double Place(ScoreCondition condition, int topic, double effectiveHours)
        => ((condition.Form + (condition.Rate * (effectiveHours - gained[topic]))) / knotSpacing) - lowestKnot;

    private Cumulants Part(int topic, double effectiveHours, int group)
    {
        TopicCumulants table = topics[topic];
        ReadOnlySpan<ScoreCondition> four = conditions.AsSpan(4 * group, 4);
        return Cumulants.Of(
            table.At(four[0].Node, Place(four[0], topic, effectiveHours)),
            table.At(four[1].Node, Place(four[1], topic, effectiveHours)),
            table.At(four[2].Node, Place(four[2], topic, effectiveHours)),
            table.At(four[3].Node, Place(four[3], topic, effectiveHours)));
    }

    private void Fill(int topic)
    {
        risen[topic] = false;
        for (int g = 0; g < groups; g++)
        {
            parts[(topic * groups) + g] = Part(topic, hours[topic], g);
        }
    }

    private void FillRises(int topic)
    {
        risen[topic] = true;
        TopicCumulants table = topics[topic];
        for (int g = 0; g < groups; g++)
        {
            ReadOnlySpan<ScoreCondition> four = conditions.AsSpan(4 * g, 4);
            rises[(topic * groups) + g] = Cumulants.Of(
                table.Rise(four[0].Node, Place(four[0], topic, hours[topic])),
                table.Rise(four[1].Node, Place(four[1], topic, hours[topic])),
                table.Rise(four[2].Node, Place(four[2], topic, hours[topic])),
                table.Rise(four[3].Node, Place(four[3], topic, hours[topic])));
        }
    }

    private void RefreshReached(int section)
    {
        for (int at = section; at < groups * marks.Length && !truncates; at += marks.Length)
        {
            reached[at] = marks[section].Reached(sums[at]);
        }
    }

    private double PassNow()
    {
        Vector256<double> pass = Vector256<double>.Zero;
        for (int g = 0; g < groups; g++)
        {
            Vector256<double> here = weights[g];
            if (truncates)
            {
                here *= PassChance(sums.AsSpan(g * marks.Length, marks.Length));
            }
            else
            {
                for (int s = 0; s < marks.Length; s++)
                {
                    here *= reached[(g * marks.Length) + s];
                }
            }

            pass += here;
        }

        return Vector256.Sum(pass);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private QuickScore Evaluate(int first, double firstHours, int second, double secondHours)
    {
        Vector256<double> pass = Vector256<double>.Zero;
        Vector256<double> correct = Vector256<double>.Zero;
        int sectionOfFirst = sectionOf[first];
        int sectionOfSecond = second < 0 ? -1 : sectionOf[second];
        Span<Cumulants> now = stackalloc Cumulants[truncates ? marks.Length : 0];
        for (int g = 0; g < groups; g++)
        {
            Cumulants change = Part(first, firstHours, g) - parts[(first * groups) + g];
            correct += weights[g] * change.Mean;
            Cumulants other = default;
            if (second >= 0)
            {
                other = Part(second, secondHours, g) - parts[(second * groups) + g];
                correct += weights[g] * other.Mean;
                if (sectionOfFirst == sectionOfSecond)
                {
                    change += other;
                }
            }

            Vector256<double> here = weights[g];
            if (truncates)
            {
                sums.AsSpan(g * marks.Length, marks.Length).CopyTo(now);
                now[sectionOfFirst] += change;
                if (second >= 0 && sectionOfFirst != sectionOfSecond)
                {
                    now[sectionOfSecond] += other;
                }

                pass += here * PassChance(now);
                continue;
            }

            for (int s = 0; s < marks.Length; s++)
            {
                int at = (g * marks.Length) + s;
                here *= s == sectionOfFirst ? marks[s].Reached(sums[at] + change)
                    : s == sectionOfSecond ? marks[s].Reached(sums[at] + other)
                    : reached[at];
            }

            pass += here;
        }

        return new QuickScore(Vector256.Sum(pass), Score.Correct + Vector256.Sum(correct));
    }

    // Under a total with section minimums.
    private Vector256<double> PassChance(ReadOnlySpan<Cumulants> sections)
    {
        // Sections are independent here: each is cut off at its own minimum, and what is left of them adds up.
        Vector256<double> pass = Vector256<double>.One;
        Cumulants total = default;
        int least = 0;
        for (int s = 0; s < sections.Length; s++)
        {
            pass *= marks[s].Truncated(sections[s], out Cumulants kept);
            total += kept;
            least += Math.Max(0, marks[s].Mark);
        }

        return least >= rule.Total ? pass : pass * new SectionMark(rule.Total, exam.ScoredItems).Reached(total);
    }

    // Derivatives of the pass chance with respect to each section's cumulants.
    private void Differentiate(ReadOnlySpan<Cumulants> sections, Span<Cumulants> result)
    {
        if (truncates)
        {
            DifferentiateByDifferences(sections, result);
            return;
        }

        Vector256<double> all = Vector256<double>.One;
        for (int s = 0; s < sections.Length; s++)
        {
            Vector256<double> here = marks[s].Reached(sections[s], out result[s]);
            for (int other = 0; other < s; other++)
            {
                result[other] = here * result[other];
            }

            result[s] = all * result[s];
            all *= here;
        }
    }

    private void DifferentiateByDifferences(ReadOnlySpan<Cumulants> sections, Span<Cumulants> result)
    {
        const double Step = 1e-4;
        Span<Cumulants> moved = stackalloc Cumulants[sections.Length];
        sections.CopyTo(moved);
        Vector256<double> at = PassChance(sections);
        Vector256<double> step = Vector256.Create(Step);
        for (int s = 0; s < sections.Length; s++)
        {
            Cumulants now = sections[s];
            moved[s] = new Cumulants(now.Mean + step, now.Variance, now.Third, now.Fourth);
            Vector256<double> byMean = (PassChance(moved) - at) / step;
            moved[s] = new Cumulants(now.Mean, now.Variance + step, now.Third, now.Fourth);
            Vector256<double> byVariance = (PassChance(moved) - at) / step;
            moved[s] = new Cumulants(now.Mean, now.Variance, now.Third + step, now.Fourth);
            Vector256<double> byThird = (PassChance(moved) - at) / step;
            moved[s] = now;

            // The fourth hardly matters.
            result[s] = new Cumulants(byMean, byVariance, byThird, Vector256<double>.Zero);
        }
    }
}
