namespace Homestretch.Store;

/// <summary>A candidate's own way in. Only hashes are kept, so that nobody who reads the database can open a page with them. Taken out means revoked.</summary>
public sealed class PersonalLink : KeptRow
{
    /// <summary>SHA-256 of the token of the pages, in hexadecimal.</summary>
    public required string PageHash { get; init; }

    /// <summary>SHA-256 of the token of the calendar feed, in hexadecimal.</summary>
    public required string FeedHash { get; init; }
}
