using Homestretch.Core.Blueprints;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Forecasting;

/// <summary>The distribution of one topic's correct answers, node by node, with buffers that are used again.</summary>
internal sealed class TopicCounts
{
    private const double NegligibleDensity = 1e-11;
    private const double SpacingInWidths = 0.8;

    private readonly ResponseCurve curve;
    private readonly double[] abilities;
    private readonly int[] starts;
    private readonly double[][] densities;
    private readonly double[] chances;
    private readonly double[] right;
    private readonly double[] none;
    private readonly double[] table;
    private double[] part = [];
    private double[] more = [];
    private double[] less = [];
    private bool lessDiffers;
    private double reached = 1;

    public TopicCounts(ExamTopic examTopic, int topic, AbilityPosterior posterior, int[] nodes)
    {
        Items = examTopic.Items;
        curve = posterior.ExamCurve(topic, examTopic.Name);

        // The exam's own items on the topic are one more draw from the pool: its difficulty widens the ability that meets them.
        GaussianKernel form = new(posterior.Assumptions.ExamTopicFormSd(examTopic.Name, Items), posterior.Grid.Step);
        double[][] wide = Array.ConvertAll(nodes, node => form.SmoothWidening(posterior.Conditional(topic, node).Density.AsSpan()));
        int stride = Stride(wide[nodes.Length / 2], posterior.Grid.Step, Items);
        starts = new int[nodes.Length];
        densities = new double[nodes.Length][];
        for (int i = 0; i < nodes.Length; i++)
        {
            // Points are kept where their index on the whole grid is a multiple of the stride, so that all nodes share them.
            int origin = posterior.Conditional(topic, nodes[i]).Start - form.Reach;
            int offset = ((-origin % stride) + stride) % stride;
            double[] thin = [.. Enumerable.Range(0, Math.Max(0, (wide[i].Length - offset + stride - 1) / stride)).Select(j => wide[i][offset + (j * stride)])];
            double floor = Spans.Max(thin) * NegligibleDensity;
            int first = Array.FindIndex(thin, d => d > floor);
            int last = Array.FindLastIndex(thin, d => d > floor);
            double[] kept = thin[first..(last + 1)];
            Spans.Divide(kept, Spans.Sum(kept));
            starts[i] = ((origin + offset) / stride) + first;
            densities[i] = kept;
        }

        int low = starts.Min();
        int high = starts.Select((s, i) => s + densities[i].Length).Max();
        for (int i = 0; i < starts.Length; i++)
        {
            starts[i] -= low;
        }

        abilities = new double[high - low];
        for (int i = 0; i < abilities.Length; i++)
        {
            abilities[i] = posterior.Grid.Origin + ((low + i) * stride * posterior.Grid.Step);
        }

        chances = new double[abilities.Length];
        right = new double[abilities.Length];
        none = new double[abilities.Length];
        table = new double[(Items + 1) * abilities.Length];
        Counts = new double[Items + 1];
    }

    // The grid is fine enough for likelihoods; the product of a widened density and a binomial is smoother. With points this far apart,
    // in widths of that product, the trapezoidal rule is still good to 1e-12.
    private static int Stride(double[] density, double step, int items)
    {
        double total = Spans.Sum(density);
        double mean = 0;
        double square = 0;
        for (int i = 0; i < density.Length; i++)
        {
            mean += density[i] * i / total;
            square += density[i] * i * i / total;
        }

        double variance = (square - (mean * mean)) * step * step;
        double width = Math.Sqrt(1 / ((1 / variance) + (items / 4.0)));
        return Math.Max(1, (int)Math.Floor(SpacingInWidths * width / step));
    }

    /// <summary>Scored items on the topic.</summary>
    public int Items { get; }

    /// <summary>Chance of 0, 1, ... correct answers at the node last counted.</summary>
    public double[] Counts { get; }

    /// <summary>Sets what is added to every ability, form and study, and the share of the items that is reached in time; the others are answered by guessing.</summary>
    public void Prepare(double shift, double reachedShare)
    {
        reached = reachedShare;
        Fill(shift, table);
    }

    /// <summary>Forgets the two neighbouring amounts of study.</summary>
    public void ClearChange()
    {
        if (more.Length == 0)
        {
            part = new double[table.Length];
            more = new double[table.Length];
            less = new double[table.Length];
        }

        Array.Clear(more);
        Array.Clear(less);
        lessDiffers = false;
    }

    /// <summary>Adds what the two neighbouring amounts of study may shift every ability by.</summary>
    /// <param name="weight">How likely this is; the weights sum to 1.</param>
    /// <param name="moreShift">The shift of more study.</param>
    /// <param name="lessShift">The shift of less; null where there is none to take away.</param>
    public void AddToChange(double weight, double moreShift, double? lessShift)
    {
        Fill(moreShift, part);
        Spans.AddScaled(part, weight, more);
        if (lessShift is { } shift)
        {
            lessDiffers = true;
            Fill(shift, part);
            Spans.AddScaled(part, weight, less);
        }
    }

    /// <summary>Fills <see cref="Counts"/> for one node.</summary>
    public void Count(int node)
    {
        ReadOnlySpan<double> density = densities[node];
        for (int count = 0; count <= Items; count++)
        {
            Counts[count] = Spans.Dot(density, table.AsSpan((count * abilities.Length) + starts[node], density.Length));
        }
    }

    /// <summary>Expected correct answers at the node last counted.</summary>
    public double Expected()
    {
        double sum = 0;
        for (int count = 1; count <= Items; count++)
        {
            sum += count * Counts[count];
        }

        return sum;
    }

    /// <summary>Adds what one piece more and one piece less would change, when <paramref name="worth"/> is the pass chance for each count of this topic.</summary>
    public void AddChange(int node, double weight, ReadOnlySpan<double> worth, ref EffortChange gain, ref EffortChange loss)
    {
        gain = Add(gain, Change(more, node, worth), weight);
        if (lessDiffers)
        {
            loss = Add(loss, Change(less, node, worth), -weight);
        }
    }

    private static EffortChange Add(EffortChange sum, EffortChange change, double weight)
        => new(sum.Pass + (weight * change.Pass), sum.Score + (weight * change.Score));

    private EffortChange Change(double[] other, int node, ReadOnlySpan<double> worth)
    {
        ReadOnlySpan<double> density = densities[node];
        double pass = 0;
        double score = 0;
        for (int count = 0; count <= Items; count++)
        {
            double change = Spans.Dot(density, other.AsSpan((count * abilities.Length) + starts[node], density.Length)) - Counts[count];
            pass += change * worth[count];
            score += change * count;
        }

        return new EffortChange(pass, score);
    }

    private void Fill(double shift, double[] target)
    {
        for (int i = 0; i < chances.Length; i++)
        {
            chances[i] = curve.Chance(abilities[i] + shift);
        }

        // The topic's items are taken as spread evenly over the section, so the same share of them is reached; a part of an item is reached by that chance.
        double inTime = Items * reached;
        int whole = Math.Min(Items, (int)Math.Floor(inTime + 1e-9));
        BinomialTable.Fill(whole, chances, target);
        for (int answered = whole; answered < Items; answered++)
        {
            AddItem(answered, Math.Clamp(inTime - answered, 0, 1), target);
        }
    }

    // One item more that is known with the chance at each ability where it is reached, and guessed where it is not.
    private void AddItem(int answered, double reachedChance, double[] target)
    {
        int width = chances.Length;
        for (int i = 0; i < width; i++)
        {
            right[i] = (reachedChance * chances[i]) + ((1 - reachedChance) * curve.Guess);
        }

        target.AsSpan((answered + 1) * width, width).Clear();
        for (int count = answered + 1; count > 0; count--)
        {
            Spans.Mix(target.AsSpan((count - 1) * width, width), right, target.AsSpan(count * width, width));
        }

        Spans.Mix(none, right, target.AsSpan(0, width));
    }
}
