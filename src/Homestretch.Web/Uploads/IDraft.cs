namespace Homestretch.Web.Uploads;

/// <summary>Something that <see cref="Drafts"/> keeps for a while.</summary>
public interface IDraft
{
    /// <summary>About how many bytes it takes.</summary>
    long Bytes { get; }
}
