using Homestretch.Core.Evidence;

namespace Homestretch.Files.StudyLogs;

/// <summary>A session and the row that tells of it.</summary>
/// <param name="Session">The session.</param>
/// <param name="File">The file as the person named it.</param>
/// <param name="Line">Line, from 1.</param>
public sealed record LoggedSession(StudySession Session, string File, int Line);
