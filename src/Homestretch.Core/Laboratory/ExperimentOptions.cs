using System.Collections.Immutable;

namespace Homestretch.Core.Laboratory;

/// <summary>What to try, on how many candidates.</summary>
public sealed record ExperimentOptions
{
    /// <summary>The scenarios.</summary>
    public ImmutableArray<Scenario> Scenarios { get; init; } = Laboratory.Scenarios.All;

    /// <summary>The policies; every candidate meets each of them.</summary>
    public ImmutableArray<LaboratoryPolicy> Policies { get; init; } = [.. Enum.GetValues<LaboratoryPolicy>()];

    /// <summary>Candidates per scenario, one or more.</summary>
    public int Candidates { get; init; } = 1000;

    /// <summary>Where all chance comes from: the same seed gives the same figures on every machine.</summary>
    public long Seed { get; init; } = 1;

    /// <summary>Made-up exams that the candidates share, one or more.</summary>
    public int Exams { get; init; } = 100;

    /// <summary>Threads to work on; as many as the machine has when null. The figures do not depend on it.</summary>
    public int? Threads { get; init; }
}
