using Homestretch.Store;

namespace Homestretch.Web.Api;

/// <summary>A row that is kept of a case, with how it came.</summary>
/// <typeparam name="T">Its cells.</typeparam>
/// <param name="Id">Its number.</param>
/// <param name="At">When it came, ISO 8601 in UTC.</param>
/// <param name="Origin">How it came: <c>file</c>, <c>coach</c>, <c>candidate</c> or <c>program</c>.</param>
/// <param name="OriginFile">The file it was read from; null where it was entered.</param>
/// <param name="OriginLine">The line of that file, from 1; null where it was entered.</param>
/// <param name="RemovedAt">When it was taken out; null while it counts.</param>
/// <param name="Row">Its cells.</param>
public sealed record KeptRowFields<T>(long Id, string At, string Origin, string? OriginFile, int? OriginLine, string? RemovedAt, T Row)
{
    /// <summary>The fields of a kept row.</summary>
    public static KeptRowFields<T> Of(KeptRow kept, T row)
    {
        ArgumentNullException.ThrowIfNull(kept);
        return new(kept.Id, CaseFields.Time(kept.At), CaseFields.Word(kept.Origin), kept.OriginFile, kept.OriginLine, kept.RemovedAt is { } removed ? CaseFields.Time(removed) : null, row);
    }
}
