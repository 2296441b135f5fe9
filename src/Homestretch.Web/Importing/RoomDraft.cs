using System.Collections.Immutable;

using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Uploads;

namespace Homestretch.Web.Importing;

/// <summary>A room to import as far as it has been entered.</summary>
/// <param name="ExamKey">An exam that is kept; empty where its file is among <paramref name="Files"/>.</param>
/// <param name="Zone">The time zone for rows without one, as typed; may be empty.</param>
/// <param name="ExamDay">The exam day for rows without one, as typed; may be empty.</param>
/// <param name="Sheet">The candidates sheet; null while none was chosen.</param>
/// <param name="Files">The other files: exam, evidence, results of other people, item bank.</param>
public sealed record RoomDraft(string ExamKey, string Zone, string ExamDay, RoomSheet? Sheet, ImmutableArray<NamedFile> Files) : IDraft
{
    /// <summary>Nothing entered yet.</summary>
    public static RoomDraft Empty { get; } = new("", "", "", null, []);

    /// <inheritdoc/>
    public long Bytes => Files.Sum(f => (long)f.Content.Length) + (Sheet?.Content.Length ?? 0);

    /// <summary>The files of a role with their names.</summary>
    public ImmutableArray<(string FileName, ReadOnlyMemory<byte> Bytes)> Of(FileRole role) => [.. Files.Where(f => f.Role == role).Select(f => (f.Name, f.Content))];
}
