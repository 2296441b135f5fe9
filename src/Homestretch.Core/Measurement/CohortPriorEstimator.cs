using System.Collections.Immutable;
using System.Numerics.Tensors;

using Homestretch.Core.Standing;

using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.Optimization;

namespace Homestretch.Core.Measurement;

/// <summary>Estimates from a cohort how abilities are spread: marginal maximum likelihood, with abilities integrated out.</summary>
/// <remarks>The model is the one standing uses: topic abilities normal about a person's overall ability, counts binomial. Equal results are
/// computed once, so the cost grows with different results, not with people.</remarks>
public static class CohortPriorEstimator
{
    /// <summary>Fewer people than this say too little.</summary>
    public const int FewestPersons = 30;

    /// <summary>Spread in difficulty of items within a topic before any is seen, in logits (an assumption).</summary>
    public const double UsualSpread = 1;

    /// <summary>How many items' worth of evidence that assumption counts.</summary>
    public const int UsualSpreadItems = 4;

    // Nodes are a multiple of the grid's step apart; spreads below these bounds would fall between them.
    private const double SmallestAbilitySd = 0.25;
    private const double SmallestTopicSd = 0.15;
    // Nodes reach six logits to either side: beyond this spread too much would lie outside.
    private const double LargestSd = 2;
    private const double WidestTopicSpread = 1;
    private const double NodeSpacing = 0.2;
    private const double NodeReach = 6;
    private const double DifferenceStep = 1e-4;

    /// <summary>Estimates mean and spreads.</summary>
    /// <param name="cohort">The cohort; people who answered nothing are left out.</param>
    /// <exception cref="UnsuitableDataException">Fewer than <see cref="FewestPersons"/> people, or everyone answered alike.</exception>
    public static CohortPrior Estimate(CohortCounts cohort)
    {
        ArgumentNullException.ThrowIfNull(cohort);
        int[] used = [.. Enumerable.Range(0, cohort.Persons).Where(p => cohort.Answered[p].Sum() > 0)];
        if (used.Length < FewestPersons)
        {
            throw new UnsuitableDataException($"Priors need at least {FewestPersons} people with answers; there are {used.Length}.");
        }

        for (int t = 0; t < cohort.Topics.Length; t++)
        {
            int right = used.Sum(p => cohort.Correct[p][t]);
            int all = used.Sum(p => cohort.Answered[p][t]);
            if (right == 0 || right == all)
            {
                throw new UnsuitableDataException($"On '{cohort.Topics[t]}' all {all} answers of the cohort are alike, so they say nothing about its spread.");
            }
        }

        MarginalLikelihood likelihood = new(cohort, used);
        double[] start = Start(cohort, used);
        Vector<double> found = Maximise(likelihood, start);
        Matrix<double> information = Information(likelihood, found);
        double[] errors = StandardErrors(information);
        int topics = cohort.Topics.Length;
        Estimate Of(int i, Func<double, double> value, double slope) => new(value(found[i]), errors[i] * slope);
        double spread = cohort.ItemShares.IsEmpty
            ? 0
            : ItemSpreadOf(cohort.ItemShares, used.Length, cohort.Guess, Math.Sqrt(Math.Exp(2 * found[topics]) + Math.Exp(2 * found[topics + 1])));
        return new CohortPrior(
            cohort.Test,
            used.Length,
            Of(topics, Math.Exp, Math.Exp(found[topics])),
            Of(topics + 1, Math.Exp, Math.Exp(found[topics + 1])),
            Enumerable.Range(0, topics).ToImmutableDictionary(t => cohort.Topics[t], t => Of(t, v => v, 1)),
            spread,
            Enumerable.Range(0, topics).ToImmutableDictionary(t => cohort.Topics[t], t => used.Max(p => cohort.Answered[p][t])),
            likelihood.Log(found.AsArray() ?? found.ToArray()));
    }

    /// <summary>Spread in difficulty of the items within topics, freed of sampling error, in logits.</summary>
    /// <param name="shares">Per topic, each item's share of correct answers in the cohort.</param>
    /// <param name="persons">People who answered each item.</param>
    /// <param name="guess">Per topic, the chance of guessing right.</param>
    /// <param name="abilitySd">Spread of ability on a topic between people: it flattens the curve from difficulty to share.</param>
    /// <remarks>A short test has few items to compare within topics, so the estimate is drawn towards a usual spread, which counts as much as
    /// <see cref="UsualSpreadItems"/> items would.</remarks>
    /// <returns>The spread; <see cref="UsualSpread"/> where no topic has two items.</returns>
    public static double ItemSpreadOf(IReadOnlyList<double[]> shares, int persons, IReadOnlyList<double> guess, double abilitySd)
    {
        double squares = 0;
        int degrees = 0;
        double sampling = 0;
        int items = 0;

        // Shares of all right or all wrong stand for half an answer less.
        double edge = 0.5 / Math.Max(1, persons);
        double flattening = Math.Sqrt(1 + (abilitySd * abilitySd * LogisticToProbit * LogisticToProbit));
        for (int t = 0; t < shares.Count; t++)
        {
            double[] difficulties = Array.ConvertAll(shares[t], share =>
            {
                double known = Math.Clamp((share - guess[t]) / (1 - guess[t]), edge, 1 - edge);
                double variance = share * (1 - share) / Math.Max(1, persons) / Math.Pow((1 - guess[t]) * known * (1 - known), 2);
                sampling += variance * flattening * flattening;
                items++;
                return flattening * Math.Log(known / (1 - known));
            });
            double mean = difficulties.Length == 0 ? 0 : difficulties.Average();
            squares += difficulties.Sum(d => (d - mean) * (d - mean));
            degrees += Math.Max(0, difficulties.Length - 1);
        }

        double own = degrees == 0 ? 0 : Math.Max(0, squares - (degrees * sampling / items));
        return Math.Sqrt((own + (UsualSpreadItems * UsualSpread * UsualSpread)) / (degrees + UsualSpreadItems));
    }

    // A logistic curve averaged over a normal ability is close to a flatter logistic curve: factor 1 / sqrt(1 + k^2 var), k = 16 sqrt(3) / (15 pi).
    internal const double LogisticToProbit = 0.588;

    private static double[] Start(CohortCounts cohort, int[] used)
    {
        double[] start = new double[cohort.Topics.Length + 2];
        for (int t = 0; t < cohort.Topics.Length; t++)
        {
            double share = (used.Sum(p => cohort.Correct[p][t]) + 0.5) / (used.Sum(p => cohort.Answered[p][t]) + 1.0);
            double known = Math.Clamp((share - cohort.Guess[t]) / (1 - cohort.Guess[t]), 0.02, 0.98);
            start[t] = Math.Log(known / (1 - known));
        }

        start[^2] = Math.Log(StandingAssumptions.Default.AbilitySd);
        start[^1] = Math.Log(StandingAssumptions.Default.TopicSd);
        return start;
    }

    private static Vector<double> Maximise(MarginalLikelihood likelihood, double[] start)
    {
        // Bounds keep the search where the quadrature is good; they also answer for cohorts in which everybody is alike.
        int count = start.Length;
        Vector<double> lower = Vector<double>.Build.Dense(count, i => i < count - 2 ? -5 : Math.Log(i == count - 2 ? SmallestAbilitySd : SmallestTopicSd));
        Vector<double> upper = Vector<double>.Build.Dense(count, i => i < count - 2 ? 5 : Math.Log(LargestSd));
        double Cost(Vector<double> at) => -(likelihood.Log(at.ToArray()) + Penalty(at, count - 2)) / likelihood.Persons;
        Vector<double> Gradient(Vector<double> at) => Vector<double>.Build.Dense(count, i =>
        {
            Vector<double> more = at.Clone();
            Vector<double> less = at.Clone();
            more[i] += DifferenceStep;
            less[i] -= DifferenceStep;
            return (Cost(more) - Cost(less)) / (2 * DifferenceStep);
        });
        IObjectiveFunction objective = ObjectiveFunction.Gradient(Cost, Gradient);
        Vector<double> initial = Vector<double>.Build.DenseOfArray(start);
        return new BfgsBMinimizer(1e-6, 1e-7, 1e-9, 200).FindMinimum(objective, lower, upper, initial).MinimizingPoint;
    }

    // A topic whose few items are answered by guessing alone would run off to minus infinity; a wide normal about the mean of all topics holds it.
    private static double Penalty(Vector<double> at, int topics)
    {
        double mean = at.Take(topics).Average();
        return at.Take(topics).Sum(m => -0.5 * (m - mean) * (m - mean) / (WidestTopicSpread * WidestTopicSpread));
    }

    private static Matrix<double> Information(MarginalLikelihood likelihood, Vector<double> at)
    {
        const double Step = 1e-3;
        int count = at.Count;
        double Log(int i, double di, int j, double dj)
        {
            double[] moved = at.ToArray();
            moved[i] += di;
            moved[j] += dj;
            return likelihood.Log(moved);
        }

        return Matrix<double>.Build.Dense(count, count, (i, j) =>
            -(Log(i, Step, j, Step) - Log(i, Step, j, -Step) - Log(i, -Step, j, Step) + Log(i, -Step, j, -Step)) / (4 * Step * Step));
    }

    private static double[] StandardErrors(Matrix<double> information)
    {
        int count = information.RowCount;
        if (!(Math.Abs(information.Determinant()) > 0))
        {
            return [.. Enumerable.Repeat(double.PositiveInfinity, count)];
        }

        Matrix<double> variances = information.Inverse();
        return [.. Enumerable.Range(0, count).Select(i => variances[i, i] > 0 ? Math.Sqrt(variances[i, i]) : double.PositiveInfinity)];
    }

    private sealed class MarginalLikelihood
    {
        private readonly CohortCounts cohort;
        private readonly (int[] Correct, int[] Answered, int Persons)[] results;
        private readonly (int Correct, int Answered)[][] cells;
        private readonly int[][] cellOf;
        private readonly AbilityGrid grid;
        private readonly double[] nodes;

        public MarginalLikelihood(CohortCounts cohort, int[] used)
        {
            this.cohort = cohort;
            Persons = used.Length;
            results = [.. used
                .GroupBy(p => string.Join(' ', cohort.Correct[p]) + "/" + string.Join(' ', cohort.Answered[p]))
                .Select(g => (cohort.Correct[g.First()], cohort.Answered[g.First()], g.Count()))];
            cells = new (int, int)[cohort.Topics.Length][];
            cellOf = new int[cohort.Topics.Length][];
            for (int t = 0; t < cells.Length; t++)
            {
                cells[t] = [.. results.Select(r => (r.Correct[t], r.Answered[t])).Distinct().Order()];
                cellOf[t] = [.. results.Select(r => Array.BinarySearch(cells[t], (r.Correct[t], r.Answered[t])))];
            }

            grid = AbilityGrid.For(0, results.Max(r => r.Answered.Max()));
            nodes = [.. Enumerable.Range(0, (int)(2 * NodeReach / NodeSpacing) + 1).Select(i => -NodeReach + (i * NodeSpacing))];
        }

        public int Persons { get; }

        // parameters: topic means, log ability sd, log topic sd
        public double Log(double[] parameters)
        {
            int topics = cohort.Topics.Length;
            double abilitySd = Math.Exp(parameters[topics]);
            GaussianKernel spread = new(Math.Exp(parameters[topics + 1]), grid.Step);
            double[][] joint = [.. results.Select(_ => new double[nodes.Length])];
            double[] likelihood = new double[grid.Count];
            for (int t = 0; t < topics; t++)
            {
                ResponseCurve curve = new(cohort.Guess[t], parameters[t]);
                double[] logRight = new double[grid.Count];
                double[] logWrong = new double[grid.Count];
                for (int i = 0; i < grid.Count; i++)
                {
                    double chance = curve.Chance(grid[i]);
                    logRight[i] = Math.Log(chance);
                    logWrong[i] = Math.Log(1 - chance);
                }

                double[][] byCell = Array.ConvertAll(cells[t], cell =>
                {
                    for (int i = 0; i < likelihood.Length; i++)
                    {
                        likelihood[i] = Math.Exp((cell.Correct * logRight[i]) + ((cell.Answered - cell.Correct) * logWrong[i]));
                    }

                    return Array.ConvertAll(nodes, node => Math.Log(Smooth(spread, node, likelihood)));
                });
                for (int r = 0; r < joint.Length; r++)
                {
                    TensorPrimitives.Add(joint[r], byCell[cellOf[t][r]], joint[r]);
                }
            }

            double[] prior = Array.ConvertAll(nodes, node => -0.5 * node * node / (abilitySd * abilitySd));
            double normaliser = Math.Log(prior.Sum(Math.Exp));
            double sum = 0;
            for (int r = 0; r < joint.Length; r++)
            {
                TensorPrimitives.Add(joint[r], prior, joint[r]);
                double top = TensorPrimitives.Max<double>(joint[r]);
                double total = joint[r].Sum(v => Math.Exp(v - top));
                sum += results[r].Persons * (top + Math.Log(total) - normaliser);
            }

            return sum;
        }

        private double Smooth(GaussianKernel spread, double node, double[] likelihood)
            => spread.Weigh((int)Math.Round((node - grid.Origin) / grid.Step), likelihood);
    }
}
