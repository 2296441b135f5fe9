using Homestretch.Web.Uploads;

namespace Homestretch.Web.Exams;

/// <summary>Keeps what coaches are typing between one page and the next, for half a day after its last use. Apart from uploads, whose files could leave no room for it.</summary>
public sealed class ExamEdits : IDisposable
{
    private readonly Drafts _drafts = new(TimeSpan.FromHours(12), 100L * 1024 * 1024);

    /// <summary>The edit of an id, or null where it is unknown or too old.</summary>
    public ExamEdit? Find(string? id) => _drafts.Find<ExamEdit>(id);

    /// <summary>Keeps an edit under its id, or a new one that nobody can guess; returns the id.</summary>
    public string Keep(string? id, ExamEdit edit) => _drafts.Keep(edit, id);

    /// <summary>Forgets an edit.</summary>
    public void Forget(string? id) => _drafts.Forget(id);

    /// <inheritdoc/>
    public void Dispose() => _drafts.Dispose();
}
