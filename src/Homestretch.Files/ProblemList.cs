namespace Homestretch.Files;

/// <summary>Collects what is wrong in one or several files, so that a person sees everything at once.</summary>
internal sealed class ProblemList
{
    /// <summary>More problems than this are counted, not listed.</summary>
    public const int MostListed = 50;

    private readonly List<FileProblem> problems = [];
    private readonly List<string> files = [];

    /// <summary>Whether nothing is wrong so far.</summary>
    public bool IsEmpty => problems.Count == 0;

    /// <summary>Notes one problem; <paramref name="line"/> counts from 1.</summary>
    public void Add(string file, int line, string message)
    {
        if (!files.Contains(file, StringComparer.Ordinal))
        {
            files.Add(file);
        }

        problems.Add(new FileProblem(file, Math.Max(1, line), message));
    }

    /// <summary>The problems by file and line, the first <see cref="MostListed"/> of them, and a last one that counts the rest.</summary>
    public IReadOnlyList<FileProblem> InOrder()
    {
        List<FileProblem> ordered = [.. problems.OrderBy(p => files.IndexOf(p.File)).ThenBy(p => p.Line)];
        if (ordered.Count <= MostListed)
        {
            return ordered;
        }

        FileProblem firstLeftOut = ordered[MostListed];
        int rest = ordered.Count - MostListed;
        return [.. ordered.Take(MostListed), firstLeftOut with { Message = $"and {rest} more {(rest == 1 ? "problem" : "problems")} from here on." }];
    }
}
