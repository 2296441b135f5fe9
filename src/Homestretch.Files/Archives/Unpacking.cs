using System.IO.Compression;

namespace Homestretch.Files.Archives;

/// <summary>Unpacks zip files that people give us, in memory and within limits, since a small one may unpack to more than the machine holds.</summary>
internal static class Unpacking
{
    /// <summary>More files in one zip are refused.</summary>
    public const int MostEntries = 10_000;

    /// <summary>More bytes in all, unpacked, are refused.</summary>
    public const int MostBytes = 128 * 1024 * 1024;

    /// <summary>A file that unpacks to more than so many times its size is refused, where it is large at all: text hardly packs to a fiftieth.</summary>
    public const int MostRatio = 100;

    private const int RatioMattersFrom = 1024 * 1024;

    /// <summary>Whether bytes begin as a zip file does.</summary>
    public static bool IsZip(ReadOnlySpan<byte> bytes) => bytes.StartsWith("PK\x03\x04"u8);

    /// <summary>The unpacked files by name, folders parted by <c>/</c>; null and a problem where the zip is broken or beyond a limit. Every file is
    /// unpacked and counted, whatever sizes the zip states, and only what is wanted is kept.</summary>
    /// <param name="file">The zip's name in messages.</param>
    /// <param name="bytes">The zip.</param>
    /// <param name="wanted">Whether a file of this name is to be kept.</param>
    /// <param name="problems">Gets what is wrong.</param>
    public static Dictionary<string, byte[]>? Read(string file, ReadOnlyMemory<byte> bytes, Func<string, bool> wanted, ProblemList problems)
    {
        try
        {
            using MemoryStream packed = new(bytes.ToArray(), writable: false);
            using ZipArchive zip = new(packed, ZipArchiveMode.Read);
            if (zip.Entries.Count > MostEntries)
            {
                problems.Add(file, 1, $"The archive holds {zip.Entries.Count} files; at most {MostEntries} are read.");
                return null;
            }

            // What the zip says of itself is looked at first, which costs nothing; what it really holds is counted while it is unpacked.
            if (zip.Entries.Any(e => IsBomb(e.Length, e.CompressedLength)) || zip.Entries.Sum(e => Math.Max(0, e.Length)) > MostBytes)
            {
                problems.Add(file, 1, TooMuch);
                return null;
            }

            Dictionary<string, byte[]> files = new(StringComparer.Ordinal);
            long total = 0;
            byte[] buffer = new byte[81920];
            foreach (ZipArchiveEntry entry in zip.Entries)
            {
                bool keep = wanted(Name(entry));
                using MemoryStream copy = new();
                using Stream source = entry.Open();
                long length = 0;
                int read;
                while ((read = source.Read(buffer)) > 0)
                {
                    length += read;
                    total += read;
                    if (total > MostBytes || IsBomb(length, entry.CompressedLength))
                    {
                        problems.Add(file, 1, TooMuch);
                        return null;
                    }

                    if (keep)
                    {
                        copy.Write(buffer, 0, read);
                    }
                }

                if (keep && !files.TryAdd(Name(entry), copy.ToArray()))
                {
                    problems.Add(file, 1, $"The archive holds two files named '{Sheets.Cell.Show(Name(entry))}'; pack it again.");
                    return null;
                }
            }

            return files;
        }
        catch (Exception e) when (e is InvalidDataException or IOException or NotSupportedException or ArgumentException or OverflowException)
        {
            problems.Add(file, 1, "The file is damaged, protected by a password or packed in a way that cannot be read; save or pack it again.");
            return null;
        }
    }

    private static string TooMuch => $"The file unpacks to far more than its size; at most {MostBytes / (1024 * 1024)} MB and {MostRatio} times the packed size are read.";

    private static string Name(ZipArchiveEntry entry) => entry.FullName.Replace('\\', '/');

    private static bool IsBomb(long unpacked, long packed) => unpacked > RatioMattersFrom && unpacked > MostRatio * Math.Max(1, packed);
}
