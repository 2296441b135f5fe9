using System.Collections.Immutable;
using System.Numerics.Tensors;

using Homestretch.Core.Standing;

using MathNet.Numerics.LinearAlgebra;

namespace Homestretch.Core.Measurement;

/// <summary>Calibrates items by marginal maximum likelihood.</summary>
/// <remarks>EM over fixed nodes of a normal ability (Bock &amp; Aitkin, Psychometrika 46, 1981) for the first cycles, then quasi-Newton steps on the
/// marginal likelihood itself: limited-memory BFGS (Nocedal 1980) whose starting curvature is the EM step's (Lange, Statistica Sinica 5, 1995).
/// Nodes are added until the narrowest posterior is integrated accurately.</remarks>
public static class MarginalEstimation
{
    private const int EmCycles = 4;
    private const int EmInnerSteps = 3;
    private const int Memory = 12;
    private const int FewestCoarseNodes = 24;
    private const double CoarseShare = 0.55;
    private const double CoarseTolerance = 1e-3;
    private const double LongestStep = 1.5;
    private const double SteepestSlope = 12;
    private const int FewPersonsPerParameter = 5;

    // With many patterns the first steps are taken on a coarse grid.
    private const int ManyPatterns = 4000;

    /// <summary>Fits one model.</summary>
    /// <param name="data">The answers. Missing ones are taken as missing by design: why they are missing says nothing about the person.</param>
    /// <param name="model">The model.</param>
    /// <param name="options">Settings; the defaults when null.</param>
    /// <param name="progress">Told the log-likelihood after every step.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="UnsuitableDataException">The data cannot carry the model.</exception>
    public static MarginalCalibration Fit(
        ResponseMatrix data,
        ItemModel model,
        MarginalOptions? options = null,
        IProgress<double>? progress = null,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(data);
        options ??= MarginalOptions.Default;
        UsableItems usable = UsableItems.Find(data);
        usable.RequireAtLeast(model switch { ItemModel.Rasch => 2, ItemModel.TwoParameter => 3, _ => 4 }, Name(model));
        ResponseMatrix kept = usable.Columns.Length == data.Items.Length ? data : data.Select(usable.Columns);
        Search search = new(kept, model, options, progress, cancellation);
        if (kept.Patterns >= ManyPatterns)
        {
            search.Use(new AbilityNodes(FewestCoarseNodes));
            search.Em(EmCycles);
            search.Use(new AbilityNodes(Math.Max(FewestCoarseNodes, (int)(CoarseShare * AbilityNodes.Needed(search.MostInformation())))));
            search.Climb(CoarseTolerance);
        }

        search.Use(new AbilityNodes(AbilityNodes.Needed(search.MostInformation())));
        if (kept.Patterns < ManyPatterns)
        {
            search.Em(EmCycles);
        }

        search.Climb(options.Tolerance);
        for (int needed = AbilityNodes.Needed(search.MostInformation()); needed > search.Nodes.Count; needed = AbilityNodes.Needed(search.MostInformation()))
        {
            search.Use(new AbilityNodes(needed));
            search.Climb(options.Tolerance);
        }

        return search.Result(usable);
    }

    internal static string Name(ItemModel model) => model switch
    {
        ItemModel.Rasch => "Rasch model",
        ItemModel.TwoParameter => "two-parameter model",
        _ => "three-parameter model",
    };

    private sealed class Search(ResponseMatrix data, ItemModel kind, MarginalOptions options, IProgress<double>? progress, CancellationToken cancellation)
    {
        private readonly CompleteInformation information = new(data.Items.Length, kind == ItemModel.Rasch ? 1 : 0, kind switch { ItemModel.Rasch => 1, ItemModel.TwoParameter => 2, _ => 3 });
        // Curvature hardly depends on the nodes, so what was learnt on few of them serves on many.
        private readonly List<(double[] Step, double[] Change, double Product)> memory = [];
        private double[] point = [];
        private double[] gradient = [];
        private double value;
        private double expectedGain = double.PositiveInfinity;
        private bool converged;
        private int cycles;
        private int steps;
        private MarginalModel model = null!;
        private ExpectationStep expectation = null!;
        private ExpectedCounts counts = null!;

        public AbilityNodes Nodes => model.Nodes;

        public void Use(AbilityNodes nodes)
        {
            model = new MarginalModel(kind, data.Items.Length, nodes, options);
            expectation = new ExpectationStep(data, nodes, options.Threads);
            counts = new ExpectedCounts(data.Items.Length, nodes.Count);
            if (point.Length == 0)
            {
                point = model.Start(UsableItems.Shares(data));
                gradient = new double[model.Count];
            }

            value = Evaluate(point, gradient);
        }

        /// <summary>The largest information the test has at any ability a person may have, on the scale of the nodes.</summary>
        public double MostInformation()
        {
            if (point.Length == 0)
            {
                return data.Items.Length / 4.0;
            }

            double most = 0;
            for (double z = -4; z <= 4; z += 0.1)
            {
                double sum = 0;
                for (int j = 0; j < data.Items.Length; j++)
                {
                    double slope = model.Slope(point, j);
                    double logistic = MarginalModel.Logistic((slope * z) + model.Intercept(point, j));
                    double guess = model.Guess(point, j);
                    sum += slope * slope * (1 - guess) * logistic * logistic * (1 - logistic) / (guess + ((1 - guess) * logistic));
                }

                most = Math.Max(most, sum);
            }

            return most;
        }

        public void Em(int most)
        {
            double[] step = new double[model.Count];
            for (int cycle = 0; cycle < most; cycle++)
            {
                double[] next = [.. point];
                double[] slopes = [.. gradient];
                for (int inner = 0; inner < EmInnerSteps; inner++)
                {
                    information.Solve(slopes, step);
                    Shorten(step);
                    TensorPrimitives.Add(next, step, next);
                    model.Slopes(next, counts, slopes, information);
                }

                double[] nextGradient = new double[model.Count];
                double nextValue = Evaluate(next, nextGradient);
                cycles++;
                if (!(nextValue > value))
                {
                    // Back to the better point, with its counts.
                    value = Evaluate(point, gradient);
                    return;
                }

                point = next;
                gradient = nextGradient;
                value = nextValue;
                progress?.Report(value);
            }
        }

        public void Climb(double tolerance)
        {
            double[] direction = new double[model.Count];
            converged = false;
            for (int tries = 0; tries < options.MostSteps; tries++)
            {
                Direction(direction);
                double rise = TensorPrimitives.Dot<double>(direction, gradient);
                expectedGain = 0.5 * rise;
                if (rise >= 0 && expectedGain < tolerance)
                {
                    converged = true;
                    return;
                }

                if (!(rise > 0))
                {
                    memory.Clear();
                    information.Solve(gradient, direction);
                    rise = TensorPrimitives.Dot<double>(direction, gradient);
                    expectedGain = 0.5 * rise;
                }

                Shorten(direction);
                rise = TensorPrimitives.Dot<double>(direction, gradient);
                if (!Move(direction, rise))
                {
                    // No step along this direction raises the value: rounding is all that is left, unless the gradient says otherwise.
                    converged = expectedGain < Math.Max(tolerance, 1e-13 * Math.Abs(value));
                    if (converged || memory.Count == 0)
                    {
                        return;
                    }

                    memory.Clear();
                    continue;
                }

                RefuseRunaways();
                progress?.Report(value);
            }
        }

        public MarginalCalibration Result(UsableItems usable)
        {
            if (!converged)
            {
                throw new UnsuitableDataException(
                    $"The {Name(kind)} did not settle: after {steps} steps one more would still add about {expectedGain:G2} to the log-likelihood. {Advice()}");
            }

            bool observed = data.Patterns <= options.MostPatternsForObservedInformation;
            Matrix<double>? covariance = Invert(observed ? ObservedInformation() : CrossProduct());
            double logLikelihood = value - model.LogPrior(point);
            ImmutableArray<ItemEstimate> items = [.. Enumerable.Range(0, data.Items.Length).Select(j => Estimate(j, covariance))];
            double sd = kind == ItemModel.Rasch ? Math.Abs(point[0]) : 1;
            return new MarginalCalibration(
                kind,
                items,
                usable.LeftOut,
                usable.Persons,
                sd,
                kind == ItemModel.Rasch ? Error(covariance, 0) : null,
                logLikelihood,
                model.Count,
                observed ? ErrorSource.ObservedInformation : ErrorSource.CrossProduct,
                new Convergence(cycles, steps, expectedGain, Nodes.Count, converged),
                Notes(usable, covariance is null, items));
        }

        private double Evaluate(double[] at, double[] slopes)
        {
            model.SetCurves(at);
            double result = expectation.Run(model.LogRight, model.LogWrong, counts, cancellation) + model.LogPrior(at);
            model.Slopes(at, counts, slopes, information);
            return result;
        }

        // The two-loop recursion; the middle step is the EM step.
        private void Direction(double[] direction)
        {
            double[] rest = [.. gradient];
            double[] weights = new double[memory.Count];
            for (int i = memory.Count - 1; i >= 0; i--)
            {
                weights[i] = TensorPrimitives.Dot<double>(memory[i].Step, rest) / memory[i].Product;
                TensorPrimitives.MultiplyAdd(memory[i].Change, -weights[i], rest, rest);
            }

            information.Solve(rest, direction);
            for (int i = 0; i < memory.Count; i++)
            {
                double back = weights[i] - (TensorPrimitives.Dot<double>(memory[i].Change, direction) / memory[i].Product);
                TensorPrimitives.MultiplyAdd(memory[i].Step, back, direction, direction);
            }
        }

        private bool Move(double[] direction, double rise)
        {
            double length = 1;
            double[] next = new double[point.Length];
            double[] nextGradient = new double[point.Length];
            double rounding = 1e-15 * Math.Abs(value);
            for (int halvings = 0; halvings < 30; halvings++)
            {
                TensorPrimitives.MultiplyAdd(direction, length, point, next);
                double nextValue = Evaluate(next, nextGradient);
                steps++;
                if (nextValue >= value + (1e-4 * length * rise) - rounding)
                {
                    double[] step = new double[point.Length];
                    double[] change = new double[point.Length];
                    TensorPrimitives.Subtract(next, point, step);
                    TensorPrimitives.Subtract<double>(gradient, nextGradient, change);
                    double product = TensorPrimitives.Dot<double>(step, change);
                    if (product > 1e-12 * TensorPrimitives.Norm<double>(step) * TensorPrimitives.Norm<double>(change))
                    {
                        memory.Add((step, change, product));
                        if (memory.Count > Memory)
                        {
                            memory.RemoveAt(0);
                        }
                    }

                    point = next;
                    gradient = nextGradient;
                    value = nextValue;
                    return true;
                }

                length /= 2;
            }

            value = Evaluate(point, gradient);
            return false;
        }

        private static void Shorten(double[] step)
        {
            double longest = Math.Abs(TensorPrimitives.MaxMagnitude<double>(step));
            if (longest > LongestStep)
            {
                TensorPrimitives.Multiply(step, LongestStep / longest, step);
            }
        }

        private void RefuseRunaways()
        {
            List<string> steep = [];
            for (int j = 0; j < data.Items.Length; j++)
            {
                if (Math.Abs(model.Slope(point, j)) > SteepestSlope)
                {
                    steep.Add(data.Items[j]);
                }
            }

            if (steep.Count > 0)
            {
                string which = kind == ItemModel.Rasch ? "All items separate" : steep.Count == 1 ? $"Item '{steep[0]}' separates" : $"Items {string.Join(", ", steep.Select(s => $"'{s}'"))} separate";
                throw new UnsuitableDataException($"{which} these persons perfectly, so that no slope is steep enough. {Advice()}");
            }
        }

        private string Advice() => kind switch
        {
            ItemModel.Rasch => "More persons are needed.",
            ItemModel.TwoParameter => "More persons are needed, or the Rasch model.",
            _ => "More persons are needed, or a model with fewer parameters.",
        };

        private Matrix<double> ObservedInformation()
        {
            int size = model.Count;
            Matrix<double> result = Matrix<double>.Build.Dense(size, size);
            double[] shifted = [.. point];
            double[] up = new double[size];
            double[] down = new double[size];
            for (int i = 0; i < size; i++)
            {
                double step = 1e-4 * Math.Max(1, Math.Abs(point[i]));
                shifted[i] = point[i] + step;
                Evaluate(shifted, up);
                shifted[i] = point[i] - step;
                Evaluate(shifted, down);
                shifted[i] = point[i];
                for (int j = 0; j < size; j++)
                {
                    result[j, i] = (down[j] - up[j]) / (2 * step);
                }
            }

            Evaluate(point, gradient);
            return (result + result.Transpose()) / 2;
        }

        private Matrix<double> CrossProduct()
        {
            int size = model.Count;
            ScoreTable table = model.ScoreTable(point);
            List<ScoreProducts> parts = expectation.Visit(
                () => new ScoreProducts(table, data, ExpectationStep.Batch),
                (own, from, posteriors) => own.Add(from, posteriors.Length / Nodes.Count, posteriors),
                cancellation);
            Matrix<double> sum = Matrix<double>.Build.Dense(size, size);
            foreach (ScoreProducts part in parts)
            {
                part.AddTo(sum);
            }

            if (kind == ItemModel.ThreeParameter)
            {
                AddPriorInformation(sum);
            }

            return sum;
        }

        private void AddPriorInformation(Matrix<double> sum)
        {
            for (int j = 0; j < data.Items.Length; j++)
            {
                double guess = model.Guess(point, j);
                sum[j * 3, j * 3] += 1 / (options.SlopeSd * options.SlopeSd);
                sum[(j * 3) + 1, (j * 3) + 1] += 1 / (options.InterceptSd * options.InterceptSd);
                sum[(j * 3) + 2, (j * 3) + 2] += options.GuessingWeight * guess * (1 - guess);
            }
        }

        private static Matrix<double>? Invert(Matrix<double> information)
        {
            try
            {
                Matrix<double> inverse = information.Cholesky().Solve(Matrix<double>.Build.DenseIdentity(information.RowCount));
                return inverse.Enumerate().All(double.IsFinite) ? inverse : null;
            }
            catch (ArgumentException)
            {
                // Not positive definite: the data leave some direction free.
                return null;
            }
        }

        private static double? Error(Matrix<double>? covariance, int at)
            => covariance is not null && covariance[at, at] > 0 ? Math.Sqrt(covariance[at, at]) : null;

        private ItemEstimate Estimate(int item, Matrix<double>? covariance)
        {
            double slope = model.Slope(point, item);
            double intercept = model.Intercept(point, item);
            double guess = model.Guess(point, item);
            if (kind == ItemModel.Rasch)
            {
                return new ItemEstimate(data.Items[item], new ItemCurve(1, -intercept, 0), new ItemCurveErrors(null, Error(covariance, 1 + item), null));
            }

            int at = item * model.PerItem;
            double? difficultyError = null;
            if (covariance is not null)
            {
                // Delta method for b = -intercept / slope.
                double bySlope = intercept / (slope * slope);
                double byIntercept = -1 / slope;
                double variance = (bySlope * bySlope * covariance[at, at]) + (2 * bySlope * byIntercept * covariance[at, at + 1]) + (byIntercept * byIntercept * covariance[at + 1, at + 1]);
                difficultyError = variance > 0 && double.IsFinite(variance) ? Math.Sqrt(variance) : null;
            }

            double? guessError = kind == ItemModel.ThreeParameter && Error(covariance, at + 2) is { } g ? g * guess * (1 - guess) : null;
            return new ItemEstimate(data.Items[item], new ItemCurve(slope, -intercept / slope, guess), new ItemCurveErrors(Error(covariance, at), difficultyError, guessError));
        }

        private ImmutableArray<string> Notes(UsableItems usable, bool noErrors, ImmutableArray<ItemEstimate> items)
        {
            ImmutableArray<string>.Builder notes = ImmutableArray.CreateBuilder<string>();
            if (usable.Persons < FewPersonsPerParameter * model.Count)
            {
                notes.Add($"{usable.Persons} persons are few for {model.Count} parameters; take the estimates as rough.");
            }

            if (noErrors)
            {
                notes.Add("The data leave some parameters undetermined, so there are no standard errors.");
            }

            foreach (ItemEstimate item in items.Where(i => i.Curve.Discrimination < 0))
            {
                notes.Add($"Item '{item.Item}' is answered correctly more often by weaker persons; check its key.");
            }

            if (kind == ItemModel.Rasch && Math.Abs(point[0]) < 0.05)
            {
                notes.Add("Persons do not differ beyond chance: the estimated spread of ability is nearly zero.");
            }

            return notes.ToImmutable();
        }
    }
}
