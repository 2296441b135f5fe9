using System.Text;

using Homestretch.Files;

namespace Homestretch.Cli;

/// <summary>A file to write. All files of a command are written beside their place first and then moved, so that none is ever half written.</summary>
/// <param name="Path">Where, as the person named it.</param>
/// <param name="Content">What.</param>
public sealed record OutputFile(string Path, ReadOnlyMemory<byte> Content)
{
    /// <summary>A text file, written as UTF-8.</summary>
    public OutputFile(string path, string text)
        : this(path, Encoding.UTF8.GetBytes(text))
    {
    }

    /// <summary>A slip of the hand must not overwrite what was given to read, nor one output with the other.</summary>
    /// <param name="read">Files that are read.</param>
    /// <param name="written">Files that will be written; null where none was asked for.</param>
    /// <exception cref="UsageException">One place is named twice.</exception>
    public static void CheckPlaces(IEnumerable<string> read, IEnumerable<string?> written)
    {
        ArgumentNullException.ThrowIfNull(written);
        HashSet<string> places = [.. read.Select(System.IO.Path.GetFullPath)];
        foreach (string place in written.OfType<string>())
        {
            if (!places.Add(System.IO.Path.GetFullPath(place)))
            {
                throw new UsageException($"'{place}' is given twice: a file is either read or written, and one file holds one thing.");
            }
        }
    }

    /// <summary>Writes all of the files, or none of them.</summary>
    /// <exception cref="BadInputException">A place cannot be written to.</exception>
    public static void WriteAll(IReadOnlyList<OutputFile> files)
    {
        ArgumentNullException.ThrowIfNull(files);
        List<FileProblem> problems = [];
        List<(string Beside, string Target)> written = [];
        foreach (OutputFile file in files)
        {
            string target = System.IO.Path.GetFullPath(file.Path);
            string beside = Beside(target);
            try
            {
                if (Directory.Exists(target))
                {
                    throw new IOException("This is a folder.");
                }

                written.Add((beside, target));
                File.WriteAllBytes(beside, file.Content.Span);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException or ArgumentException or NotSupportedException)
            {
                problems.Add(Problem(file.Path, e));
            }
        }

        if (problems.Count > 0)
        {
            foreach ((string beside, _) in written.Where(w => File.Exists(w.Beside)))
            {
                File.Delete(beside);
            }

            throw new BadInputException(problems);
        }

        foreach ((string beside, string target) in written)
        {
            File.Move(beside, target, overwrite: true);
        }
    }

    /// <summary>Writes one large file bit by bit, beside its place first.</summary>
    /// <typeparam name="T">What the writing gives.</typeparam>
    /// <param name="path">Where, as the person named it.</param>
    /// <param name="write">Writes it.</param>
    /// <exception cref="BadInputException">The place cannot be written to.</exception>
    public static async Task<T> WriteAsync<T>(string path, Func<Stream, Task<T>> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        string target = System.IO.Path.GetFullPath(path);
        string beside = Beside(target);
        try
        {
            if (Directory.Exists(target))
            {
                throw new IOException("This is a folder.");
            }

            T result;
            await using (FileStream stream = new(beside, FileMode.CreateNew))
            {
                result = await write(stream);
            }

            File.Move(beside, target, overwrite: true);
            return result;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            throw new BadInputException([Problem(path, e)]);
        }
        finally
        {
            File.Delete(beside);
        }
    }

    private static string Beside(string target)
        => System.IO.Path.Combine(System.IO.Path.GetDirectoryName(target) ?? "", $".{System.IO.Path.GetFileName(target)}.{Guid.NewGuid():N}.tmp");

    private static FileProblem Problem(string path, Exception e) => new(path, 1, e is DirectoryNotFoundException
        ? "Cannot be written: there is no such folder."
        : $"Cannot be written: {Reason(e)}");

    private static string Reason(Exception e) => e is UnauthorizedAccessException ? "you may not write there." : e.Message;
}
