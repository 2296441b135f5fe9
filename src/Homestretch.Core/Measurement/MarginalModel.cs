using Homestretch.Core.Standing;

namespace Homestretch.Core.Measurement;

/// <summary>The free parameters of a model and what the expected counts say about them.</summary>
/// <remarks>Ability z is standard normal and an item's logit is slope * z + intercept. In the Rasch model all items share the slope, which is then the
/// standard deviation of ability in logits. The lower asymptote is kept as its logit. The order is: the shared slope, if any, then item by item
/// slope (if its own), intercept, logit of the asymptote (if any).</remarks>
internal sealed class MarginalModel
{
    private readonly MarginalOptions options;

    public MarginalModel(ItemModel kind, int items, AbilityNodes nodes, MarginalOptions options)
    {
        Kind = kind;
        Items = items;
        Nodes = nodes;
        this.options = options;
        Shared = kind == ItemModel.Rasch ? 1 : 0;
        PerItem = kind switch { ItemModel.Rasch => 1, ItemModel.TwoParameter => 2, _ => 3 };
        Count = Shared + (items * PerItem);
        LogRight = new double[items * nodes.Count];
        LogWrong = new double[items * nodes.Count];
    }

    public ItemModel Kind { get; }

    public int Items { get; }

    public AbilityNodes Nodes { get; }

    /// <summary>Number of free parameters.</summary>
    public int Count { get; }

    /// <summary>1 where all items share the slope, else 0.</summary>
    public int Shared { get; }

    public int PerItem { get; }

    /// <summary>Items times nodes, after <see cref="SetCurves"/>.</summary>
    public double[] LogRight { get; }

    /// <summary>Items times nodes, after <see cref="SetCurves"/>.</summary>
    public double[] LogWrong { get; }

    public double Slope(ReadOnlySpan<double> p, int item) => Shared == 1 ? p[0] : p[item * PerItem];

    public double Intercept(ReadOnlySpan<double> p, int item) => Shared == 1 ? p[1 + item] : p[(item * PerItem) + 1];

    public double Guess(ReadOnlySpan<double> p, int item) => Kind == ItemModel.ThreeParameter ? Logistic(p[(item * PerItem) + 2]) : 0;

    /// <summary>Where the search starts: slopes of 1, intercepts from the shares correct.</summary>
    public double[] Start(ReadOnlySpan<double> shares)
    {
        double[] p = new double[Count];
        if (Shared == 1)
        {
            p[0] = 1;
        }

        for (int j = 0; j < Items; j++)
        {
            double share = Math.Clamp(shares[j], 0.005, 0.995);
            double guess = Kind == ItemModel.ThreeParameter ? options.GuessingMean : 0;
            double above = Math.Clamp((share - guess) / (1 - guess), 0.05, 0.995);

            // A normal ability of standard deviation 1 flattens the curve of shares by about this much.
            double intercept = 1.16 * Math.Log(above / (1 - above));
            int at = Shared + (j * PerItem);
            if (Shared == 0)
            {
                p[at++] = 1;
            }

            p[at++] = intercept;
            if (Kind == ItemModel.ThreeParameter)
            {
                p[at] = Math.Log(guess / (1 - guess));
            }
        }

        return p;
    }

    /// <summary>Fills <see cref="LogRight"/> and <see cref="LogWrong"/>.</summary>
    public void SetCurves(ReadOnlySpan<double> p)
    {
        int width = Nodes.Count;
        for (int j = 0; j < Items; j++)
        {
            double slope = Slope(p, j);
            double intercept = Intercept(p, j);
            double guess = Guess(p, j);
            for (int k = 0; k < width; k++)
            {
                double logit = (slope * Nodes.Values[k]) + intercept;

                // log(1 + exp(-|x|)) serves both tails without overflow.
                double tail = Math.Log(1 + Math.Exp(-Math.Abs(logit)));
                double logRight = Math.Min(logit, 0) - tail;
                double logWrong = Math.Min(-logit, 0) - tail;
                if (guess > 0)
                {
                    logRight = Math.Log(guess + ((1 - guess) * Math.Exp(logRight)));
                    logWrong += Math.Log(1 - guess);
                }

                LogRight[(j * width) + k] = logRight;
                LogWrong[(j * width) + k] = logWrong;
            }
        }
    }

    /// <summary>Log of the priors' density, up to a constant; 0 without priors.</summary>
    public double LogPrior(ReadOnlySpan<double> p)
    {
        if (Kind != ItemModel.ThreeParameter)
        {
            return 0;
        }

        double sum = 0;
        for (int j = 0; j < Items; j++)
        {
            double slope = (p[j * 3] - 1) / options.SlopeSd;
            double intercept = p[(j * 3) + 1] / options.InterceptSd;
            double g = p[(j * 3) + 2];
            double weight = options.GuessingWeight;
            double mean = options.GuessingMean;
            sum += (-0.5 * ((slope * slope) + (intercept * intercept))) - (weight * mean * SoftPlus(-g)) - (weight * (1 - mean) * SoftPlus(g));
        }

        return sum;
    }

    /// <summary>Gradient of log-likelihood plus log prior, and the information the expected counts would carry if abilities were seen.</summary>
    public void Slopes(ReadOnlySpan<double> p, ExpectedCounts counts, Span<double> gradient, CompleteInformation information)
    {
        information.Clear();
        gradient.Clear();
        ReadOnlySpan<double> z = Nodes.Values;
        Span<double> own = stackalloc double[3];
        Span<double> block = stackalloc double[6];
        for (int j = 0; j < Items; j++)
        {
            ReadOnlySpan<double> right = counts.Right(j);
            ReadOnlySpan<double> wrong = counts.Wrong(j);
            double guess = Guess(p, j);
            double slope = Slope(p, j);
            double intercept = Intercept(p, j);
            own.Clear();
            block.Clear();
            for (int k = 0; k < z.Length; k++)
            {
                double n = right[k] + wrong[k];
                double logistic = Logistic((slope * z[k]) + intercept);
                double above = 1 - logistic;
                if (guess == 0)
                {
                    double miss = right[k] - (n * logistic);
                    double spread = n * logistic * above;
                    own[0] += miss * z[k];
                    own[1] += miss;
                    block[0] += spread * z[k] * z[k];
                    block[1] += spread * z[k];
                    block[2] += spread;
                    continue;
                }

                double right1 = guess + ((1 - guess) * logistic);
                double byLogit = ((right[k] * (1 - guess) * above / right1) - wrong[k]) * logistic;
                double byGuess = (right[k] * guess * (1 - guess) * above / right1) - (wrong[k] * guess);
                own[0] += byLogit * z[k];
                own[1] += byLogit;
                own[2] += byGuess;

                // n P' P' / (P Q), with Q = (1 - c)(1 - L) taken out by hand so that it never divides by zero.
                double logitInfo = n * (1 - guess) * logistic * logistic * above / right1;
                double crossInfo = n * guess * (1 - guess) * logistic * above / right1;
                double guessInfo = n * guess * guess * (1 - guess) * above / right1;
                block[0] += logitInfo * z[k] * z[k];
                block[1] += logitInfo * z[k];
                block[2] += logitInfo;
                block[3] += crossInfo * z[k];
                block[4] += crossInfo;
                block[5] += guessInfo;
            }

            if (Kind == ItemModel.ThreeParameter)
            {
                AddPriors(p, j, guess, own, block);
            }

            if (Shared == 1)
            {
                gradient[0] += own[0];
                gradient[1 + j] = own[1];
            }
            else
            {
                own[..PerItem].CopyTo(gradient.Slice(j * PerItem, PerItem));
            }

            information.Add(j, block);
        }
    }

    /// <summary>Derivatives of the log-chance of each answer to each item by the item's parameters, at every node.</summary>
    public ScoreTable ScoreTable(ReadOnlySpan<double> p)
    {
        int kinds = Shared + PerItem;
        int width = ((Items * kinds) + 7) / 8 * 8;
        double[] wrong = new double[Nodes.Count * width];
        // Without guessing a right answer differs from a wrong one by z and 1, whatever the item.
        int gapWidth = Kind == ItemModel.ThreeParameter ? width : 8;
        double[] gap = new double[Nodes.Count * gapWidth];
        for (int k = 0; k < Nodes.Count; k++)
        {
            double z = Nodes.Values[k];
            for (int j = 0; j < Items; j++)
            {
                double guess = Guess(p, j);
                double logistic = Logistic((Slope(p, j) * z) + Intercept(p, j));
                double right = guess + ((1 - guess) * logistic);
                int at = (k * width) + (j * kinds);

                // Of a right answer: (1 - c) L (1 - L) / P by the logit and c (1 - c)(1 - L) / P by the asymptote's; of a wrong one: -L and -c.
                double byLogit = guess == 0 ? 1 : logistic + ((1 - guess) * logistic * (1 - logistic) / right);
                int gapAt = (k * gapWidth) + (gapWidth == width ? j * kinds : 0);
                wrong[at] = -logistic * z;
                gap[gapAt] = byLogit * z;
                wrong[at + 1] = -logistic;
                gap[gapAt + 1] = byLogit;
                if (kinds == 3)
                {
                    wrong[at + 2] = -guess;
                    gap[gapAt + 2] = guess + (guess * (1 - guess) * (1 - logistic) / right);
                }
            }
        }

        bool shared = Shared == 1;
        return new ScoreTable(wrong, gap, width, gapWidth, kinds, column => !shared ? column : column % 2 == 0 ? 0 : 1 + (column / 2));
    }

    internal static double Logistic(double x) => 1 / (1 + Math.Exp(-x));

    private static double SoftPlus(double x) => Math.Max(x, 0) + Math.Log(1 + Math.Exp(-Math.Abs(x)));

    private void AddPriors(ReadOnlySpan<double> p, int item, double guess, Span<double> own, Span<double> block)
    {
        double slopePrecision = 1 / (options.SlopeSd * options.SlopeSd);
        double interceptPrecision = 1 / (options.InterceptSd * options.InterceptSd);
        own[0] -= (p[item * 3] - 1) * slopePrecision;
        own[1] -= p[(item * 3) + 1] * interceptPrecision;
        own[2] += options.GuessingWeight * (options.GuessingMean - guess);
        block[0] += slopePrecision;
        block[2] += interceptPrecision;
        block[5] += options.GuessingWeight * guess * (1 - guess);
    }
}
