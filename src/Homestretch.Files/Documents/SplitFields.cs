using System.Collections.Immutable;

namespace Homestretch.Files.Documents;

/// <summary>How a test was split, and how its scores fell in their forecasts.</summary>
/// <param name="Splits">Random splits.</param>
/// <param name="Seed">The seed they come from.</param>
/// <param name="Items">Items of the test.</param>
/// <param name="PriorsLearned">Whether priors were learned from half of the people.</param>
/// <param name="ExamSat">Whether the people they were learned from had taken the exam half too.</param>
/// <param name="Coverage">Share of scores inside the central 90 % of their forecast.</param>
/// <param name="Tenths">Share of scores in each tenth of their forecast.</param>
public sealed record SplitFields(int Splits, int Seed, int Items, bool PriorsLearned, bool ExamSat, double Coverage, ImmutableArray<double> Tenths);
