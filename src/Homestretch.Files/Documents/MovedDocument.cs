namespace Homestretch.Files.Documents;

/// <summary>What an export wrote or an import read.</summary>
/// <param name="File">The zip, as the person named it.</param>
/// <param name="Exams">Exams.</param>
/// <param name="Cases">Cases, removed ones included.</param>
/// <param name="EvidenceRows">Rows of evidence.</param>
/// <param name="Sessions">Study sessions.</param>
/// <param name="Plans">Plans.</param>
/// <param name="Decisions">Decisions.</param>
/// <param name="Words">Rows of words.</param>
public sealed record MovedDocument(string File, int Exams, int Cases, int EvidenceRows, int Sessions, int Plans, int Decisions, int Words);
