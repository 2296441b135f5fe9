using System.Security.Cryptography;

using Microsoft.Extensions.Caching.Memory;

namespace Homestretch.Web.Uploads;

/// <summary>Keeps what was entered while a person mends a file, so that nothing has to be chosen twice. In memory only: a draft
/// lives for an hour after its last use, or until the program stops.</summary>
public sealed class Drafts : IDisposable
{
    private const long MostBytesInAll = 200L * 1024 * 1024;
    private static readonly TimeSpan Lifetime = TimeSpan.FromHours(1);

    private readonly MemoryCache _cache = new(new MemoryCacheOptions { SizeLimit = MostBytesInAll });

    /// <summary>The draft of an id, or null where it is unknown, of another kind, or too old.</summary>
    public T? Find<T>(string? id)
        where T : class, IDraft
        => id is not null && _cache.TryGetValue(id, out object? draft) ? draft as T : null;

    /// <summary>Keeps a draft; returns its id, which nobody can guess.</summary>
    public string Keep(IDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        string id = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        _cache.Set(id, draft, new MemoryCacheEntryOptions
        {
            SlidingExpiration = Lifetime,
            Size = 1024 + draft.Bytes,
        });
        return id;
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
