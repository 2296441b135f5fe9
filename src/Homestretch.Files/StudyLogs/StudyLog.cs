using System.Collections.Immutable;

namespace Homestretch.Files.StudyLogs;

/// <summary>What study logs say: sessions that one or several candidates have done.</summary>
/// <param name="Sessions">In the order of the files.</param>
public sealed record StudyLog(ImmutableArray<LoggedSession> Sessions)
{
    /// <summary>No study.</summary>
    public static StudyLog Empty { get; } = new([]);

    /// <summary>Distinct candidates in order of appearance.</summary>
    public ImmutableArray<string> Candidates => [.. Sessions.Select(s => s.Session.Candidate).Distinct(StringComparer.OrdinalIgnoreCase)];

    /// <summary>The sessions of one candidate, whose name is compared without regard to case.</summary>
    public ImmutableArray<LoggedSession> SessionsOf(string candidate) =>
        [.. Sessions.Where(s => string.Equals(s.Session.Candidate, candidate, StringComparison.OrdinalIgnoreCase))];
}
