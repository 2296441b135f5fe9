namespace Homestretch.Core.Measurement;

/// <summary>How an iterative estimation ended.</summary>
/// <param name="EmCycles">Full EM cycles at the start; 0 where EM is not used.</param>
/// <param name="Steps">Quasi-Newton or Newton steps after that.</param>
/// <param name="ExpectedGain">What one more step would add to the log-likelihood, judged from the last gradient and curvature.</param>
/// <param name="Nodes">Quadrature nodes of the final likelihood; 0 where ability is conditioned out.</param>
/// <param name="Converged">Whether the expected gain fell below the tolerance.</param>
public sealed record Convergence(int EmCycles, int Steps, double ExpectedGain, int Nodes, bool Converged);
