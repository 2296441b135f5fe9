using System.Security.Cryptography;

using Microsoft.Extensions.Caching.Memory;

namespace Homestretch.Web.Uploads;

/// <summary>Keeps what was entered while a person mends a file, so that nothing has to be chosen twice. In memory only: a draft
/// lives for a while after its last use, or until the program stops.</summary>
/// <param name="lifetime">How long after its last use.</param>
/// <param name="mostBytesInAll">More than this, all drafts together, are not kept.</param>
public sealed class Drafts(TimeSpan lifetime, long mostBytesInAll) : IDisposable
{
    private readonly MemoryCache _cache = new(new MemoryCacheOptions { SizeLimit = mostBytesInAll });

    /// <summary>The draft of an id, or null where it is unknown, of another kind, or too old.</summary>
    public T? Find<T>(string? id)
        where T : class, IDraft
        => id is not null && _cache.TryGetValue(id, out object? draft) ? draft as T : null;

    /// <summary>Keeps a draft under an id that is known already, or under a new one that nobody can guess; returns the id.</summary>
    public string Keep(IDraft draft, string? id = null)
    {
        ArgumentNullException.ThrowIfNull(draft);
        string kept = id is not null && _cache.TryGetValue(id, out _) ? id : Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        _cache.Set(kept, draft, new MemoryCacheEntryOptions
        {
            SlidingExpiration = lifetime,
            Size = 1024 + draft.Bytes,
        });
        return kept;
    }

    /// <summary>Forgets a draft.</summary>
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
