using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Yaml;

namespace Homestretch.Files.Exams;

/// <summary>A section as the file gives it; what could not be read is null.</summary>
/// <param name="Name">Its name.</param>
/// <param name="ScoredItems">Items that count.</param>
/// <param name="UnscoredItems">Items that do not count.</param>
/// <param name="Minutes">Time limit in minutes, if given.</param>
/// <param name="Options">Options per item, 0 where answers are written.</param>
/// <param name="Cut">Its own cut score, if given.</param>
/// <param name="Topics">Its topics with their items; empty when anything is wrong with them.</param>
/// <param name="Fields">Its keys, for what is checked across sections.</param>
internal sealed record PublishedSection(
    string? Name,
    int? ScoredItems,
    int UnscoredItems,
    int? Minutes,
    int? Options,
    CutScore? Cut,
    ImmutableArray<Topic> Topics,
    MapFields Fields);
