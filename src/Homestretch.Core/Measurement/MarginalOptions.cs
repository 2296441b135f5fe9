namespace Homestretch.Core.Measurement;

/// <summary>Settings of marginal maximum likelihood. The defaults suit all but special cases.</summary>
public sealed record MarginalOptions
{
    /// <summary>The defaults.</summary>
    public static MarginalOptions Default { get; } = new();

    /// <summary>Threads to use at most.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;

    /// <summary>The estimation stops when one more step would add less than this to the log-likelihood.</summary>
    public double Tolerance { get; init; } = 1e-8;

    /// <summary>Quasi-Newton steps at most.</summary>
    public int MostSteps { get; init; } = 500;

    /// <summary>Prior mean of the lower asymptote in the three-parameter model: one over the number of options.</summary>
    public double GuessingMean { get; init; } = 0.25;

    /// <summary>How many imagined persons of no ability the prior on the lower asymptote is worth: Beta(1 + n mean, 1 + n (1 - mean)).</summary>
    public double GuessingWeight { get; init; } = 20;

    /// <summary>In the three-parameter model slopes have a normal prior with mean 1 and this standard deviation.</summary>
    public double SlopeSd { get; init; } = 1;

    /// <summary>In the three-parameter model intercepts have a normal prior with mean 0 and this standard deviation.</summary>
    public double InterceptSd { get; init; } = 3;

    /// <summary>With more different response patterns than this, standard errors come from the cross-product of the persons' scores
    /// rather than from the observed information; with that many persons the two agree.</summary>
    public int MostPatternsForObservedInformation { get; init; } = 20_000;
}
