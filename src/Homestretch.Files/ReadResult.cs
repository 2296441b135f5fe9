using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace Homestretch.Files;

/// <summary>What reading a file gave: a value, or every problem found, never both.</summary>
public sealed class ReadResult<T>
    where T : class
{
    private ReadResult(T? value, ImmutableArray<FileProblem> problems)
    {
        Value = value;
        Problems = problems;
    }

    /// <summary>What the file says; null when there are problems.</summary>
    public T? Value { get; }

    /// <summary>All problems, in the order of the file; empty when it could be read.</summary>
    public ImmutableArray<FileProblem> Problems { get; }

    /// <summary>Whether the file could be read.</summary>
    [MemberNotNullWhen(true, nameof(Value))]
    public bool IsOk => Value is not null;

    /// <summary>A file that could be read.</summary>
    public static ReadResult<T> Ok(T value) => new(value, []);

    /// <summary>A file with problems, at least one.</summary>
    public static ReadResult<T> Failed(IEnumerable<FileProblem> problems)
    {
        ImmutableArray<FileProblem> all = [.. problems];
        return all.IsEmpty ? throw new ArgumentException("A failed read names at least one problem.", nameof(problems)) : new(null, all);
    }
}
