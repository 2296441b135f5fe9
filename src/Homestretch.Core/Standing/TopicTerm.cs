namespace Homestretch.Core.Standing;

/// <summary>What the evidence on one topic says of that topic, and through it of the overall ability.</summary>
/// <param name="Likelihood">Of the topic's ability.</param>
/// <param name="OverallLogs">Logarithm of the likelihood of the overall ability, at each grid point.</param>
internal sealed record TopicTerm(ScaledLikelihood Likelihood, double[] OverallLogs);
