using System.Security.Cryptography;

using Microsoft.Extensions.Caching.Memory;

namespace Homestretch.Web.Candidates;

/// <summary>Keeps a new link for a quarter of an hour, in memory only, so that the coach's page can show it once it is made. The store has no more than its hash.</summary>
public sealed class FreshLinks : IDisposable
{
    private static readonly TimeSpan Lifetime = TimeSpan.FromMinutes(15);

    private readonly MemoryCache _cache = new(new MemoryCacheOptions { SizeLimit = 10_000 });

    /// <summary>Keeps a link of a case; returns the name under which it can be shown.</summary>
    public string Keep(string key, PersonalToken token)
    {
        string id = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
        _cache.Set((key, id), token, new MemoryCacheEntryOptions { AbsoluteExpirationRelativeToNow = Lifetime, Size = 1 });
        return id;
    }

    /// <summary>A link of a case, or null where it is unknown or too old.</summary>
    public PersonalToken? Find(string key, string? id) => id is not null && _cache.TryGetValue((key, id), out PersonalToken? token) ? token : null;

    /// <inheritdoc/>
    public void Dispose() => _cache.Dispose();
}
