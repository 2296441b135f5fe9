using System.Security.Cryptography;

using Microsoft.Extensions.Caching.Memory;

namespace Homestretch.Web.Exams;

/// <summary>Keeps what coaches are typing between one page and the next. In memory only: an edit lives for half a day after its last use, or until the program stops.</summary>
public sealed class ExamEdits : IDisposable
{
    private const long MostBytesInAll = 100L * 1024 * 1024;
    private static readonly TimeSpan _lifetime = TimeSpan.FromHours(12);

    private readonly MemoryCache _cache = new(new MemoryCacheOptions { SizeLimit = MostBytesInAll });

    /// <summary>The edit of an id, or null where it is unknown or too old.</summary>
    public ExamEdit? Find(string? id) => id is not null && _cache.TryGetValue(id, out ExamEdit? edit) ? edit : null;

    /// <summary>Keeps an edit under its id, or a new one that nobody can guess; returns the id.</summary>
    public string Keep(string? id, ExamEdit edit)
    {
        ArgumentNullException.ThrowIfNull(edit);
        string kept = Find(id) is null ? Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16)) : id!;
        _cache.Set(kept, edit, new MemoryCacheEntryOptions { SlidingExpiration = _lifetime, Size = edit.Bytes });
        return kept;
    }

    /// <summary>Forgets an edit.</summary>
    public void Forget(string? id)
    {
        if (id is not null)
        {
            _cache.Remove(id);
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _cache.Dispose();
}
