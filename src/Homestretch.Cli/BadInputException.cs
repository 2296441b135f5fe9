using System.Collections.Immutable;

using Homestretch.Files;

namespace Homestretch.Cli;

/// <summary>Files that cannot be read, understood or written; carries every problem found.</summary>
public sealed class BadInputException(IEnumerable<FileProblem> problems) : Exception("There are problems in the files.")
{
    /// <summary>At least one problem, in the order of the command line.</summary>
    public ImmutableArray<FileProblem> Problems { get; } = [.. problems];
}
