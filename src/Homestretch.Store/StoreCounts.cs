namespace Homestretch.Store;

/// <summary>How much was written to a file, or read from it.</summary>
/// <param name="Exams">Exams.</param>
/// <param name="Cases">Cases, removed ones included.</param>
/// <param name="EvidenceRows">Rows of evidence.</param>
/// <param name="Sessions">Study sessions.</param>
/// <param name="Plans">Plans.</param>
/// <param name="Decisions">Decisions.</param>
/// <param name="Words">Rows of words, replaced ones included.</param>
public sealed record StoreCounts(int Exams, int Cases, int EvidenceRows, int Sessions, int Plans, int Decisions, int Words)
{
    /// <summary>Nothing.</summary>
    public static StoreCounts None { get; } = new(0, 0, 0, 0, 0, 0, 0);

    /// <summary>With one case more.</summary>
    public StoreCounts With(StoredCase added)
    {
        ArgumentNullException.ThrowIfNull(added);
        return this with
        {
            Cases = Cases + 1,
            EvidenceRows = EvidenceRows + added.Evidence.Count,
            Sessions = Sessions + added.Sessions.Count,
            Plans = Plans + added.Plans.Count,
            Decisions = Decisions + added.Decisions.Count,
            Words = Words + added.Words.Count,
        };
    }
}
