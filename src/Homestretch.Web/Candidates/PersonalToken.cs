using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace Homestretch.Web.Candidates;

/// <summary>What a personal link carries: 160 random bits for the pages, and for the calendar feed 160 bits derived from them, so that whoever sees the feed's address cannot open the pages.</summary>
/// <param name="Page">The token of the pages.</param>
public sealed record PersonalToken(string Page)
{
    private const int Bytes = 20;

    /// <summary>The token of the calendar feed.</summary>
    public string Feed => Base64Url.EncodeToString(HMACSHA256.HashData(Encoding.UTF8.GetBytes(Page), "calendar feed"u8).AsSpan(0, Bytes));

    /// <summary>A token that nobody has had before.</summary>
    public static PersonalToken Make() => new(Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes)));

    /// <summary>What the store keeps of a token: SHA-256 in hexadecimal. A random token needs no slower hash: there is nothing to guess.</summary>
    public static string Hash(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
