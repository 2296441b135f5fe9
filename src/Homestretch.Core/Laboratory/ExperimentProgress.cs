namespace Homestretch.Core.Laboratory;

/// <summary>How far an experiment has come.</summary>
/// <param name="Scenario">The scenario at work.</param>
/// <param name="Done">Candidates done in it.</param>
/// <param name="Of">Candidates in all.</param>
public readonly record struct ExperimentProgress(Scenario Scenario, int Done, int Of);
