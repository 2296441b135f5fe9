namespace Homestretch.Files;

/// <summary>Something wrong in a file a person gave us, said so that the person can mend it.</summary>
/// <param name="File">The file as the person named it.</param>
/// <param name="Line">Line, from 1.</param>
/// <param name="Message">What is wrong, naming field and value, and what would be accepted.</param>
public sealed record FileProblem(string File, int Line, string Message)
{
    /// <summary><c>file:line: message</c>.</summary>
    public override string ToString() => $"{File}:{Line}: {Message}";
}
