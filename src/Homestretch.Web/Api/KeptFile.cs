using Homestretch.Store;

namespace Homestretch.Web.Api;

/// <summary>A file of a case that is kept as it came.</summary>
/// <param name="Id">Its number.</param>
/// <param name="Role">What it is for: <c>free-time</c>, <c>busy</c>, <c>cohort</c>, <c>item-bank</c>.</param>
/// <param name="Name">Its name.</param>
/// <param name="At">When it came, ISO 8601 in UTC.</param>
/// <param name="RemovedAt">When it was taken out; null while it counts.</param>
public sealed record KeptFile(long Id, string Role, string Name, string At, string? RemovedAt)
{
    /// <summary>The fields of a kept file.</summary>
    public static KeptFile Of(StoredFile file)
    {
        ArgumentNullException.ThrowIfNull(file);
        return new(file.Id, Word(file.Role), file.Name, CaseFields.Time(file.At), file.RemovedAt is { } removed ? CaseFields.Time(removed) : null);
    }

    /// <summary>The word for a role.</summary>
    public static string Word(FileRole role) => role switch
    {
        FileRole.Exam => "exam",
        FileRole.Evidence => "evidence",
        FileRole.FreeTime => "free-time",
        FileRole.Busy => "busy",
        FileRole.Cohort => "cohort",
        FileRole.ItemBank => "item-bank",
        _ => "study-log",
    };
}
