using System.Collections.Immutable;

using Homestretch.Web.Cases;

namespace Homestretch.Web.Uploads;

/// <summary>A new case as far as it has been entered.</summary>
/// <param name="Candidate">The candidate's name as typed; empty to take the only one in the evidence.</param>
/// <param name="ExamDay">The exam day as typed.</param>
/// <param name="Files">The files chosen so far.</param>
public sealed record Draft(string Candidate, string ExamDay, ImmutableArray<NamedFile> Files) : IDraft
{
    /// <summary>Nothing entered yet.</summary>
    public static Draft Empty { get; } = new("", "", []);

    /// <inheritdoc/>
    public long Bytes => Files.Sum(f => (long)f.Content.Length);
}
