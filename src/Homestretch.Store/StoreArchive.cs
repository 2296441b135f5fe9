using System.IO.Compression;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Serialization;

using Homestretch.Files;

using NodaTime;
using NodaTime.Serialization.SystemTextJson;

namespace Homestretch.Store;

/// <summary>The layout of an export: a zip of files, described in docs/export.md. <c>case.json</c> and <c>exam.json</c> hold what is kept row by row; files, plans and figures lie
/// beside them as they are; the CSV files are copies for people and for the other commands.</summary>
internal static class StoreArchive
{
    /// <summary>More bytes in one entry, unpacked, are refused.</summary>
    public const long MostEntryBytes = 64L * 1024 * 1024;

    /// <summary>More bytes in all, unpacked, are refused.</summary>
    public const long MostBytes = 4L * 1024 * 1024 * 1024;

    private const string Mark = "homestretch-export.json";

    private static readonly JsonSerializerOptions _json = new JsonSerializerOptions(JsonSerializerDefaults.Web)
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow,
        RespectNullableAnnotations = true,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower, allowIntegerValues: false) },
    }.ConfigureForNodaTime(DateTimeZoneProviders.Tzdb);

    /// <summary>Writes what says which kind of zip this is.</summary>
    public static void WriteMark(ZipArchive zip) => Write(zip, Mark, "{\n  \"format\": \"homestretch export\",\n  \"version\": 1\n}\n"u8);

    /// <summary>Writes an exam.</summary>
    public static void Write(ZipArchive zip, StoredExam exam)
    {
        string folder = $"exams/{exam.Key}/";
        Write(zip, folder + "exam.json", JsonSerializer.SerializeToUtf8Bytes(exam, _json));
        for (int i = 0; i < exam.Versions.Count; i++)
        {
            Write(zip, folder + Numbered(i, "yaml"), exam.Versions[i].Content);
        }

        for (int i = 0; i < exam.Files.Count; i++)
        {
            Write(zip, folder + "files/" + Numbered(i, Extension(exam.Files[i].Name)), exam.Files[i].Content);
        }
    }

    /// <summary>Writes a case.</summary>
    public static void Write(ZipArchive zip, StoredCase written)
    {
        string folder = $"cases/{written.Key}/";
        Write(zip, folder + "case.json", JsonSerializer.SerializeToUtf8Bytes(written, _json));
        for (int i = 0; i < written.Files.Count; i++)
        {
            Write(zip, folder + "files/" + Numbered(i, Extension(written.Files[i].Role)), written.Files[i].Content);
        }

        for (int i = 0; i < written.Plans.Count; i++)
        {
            Write(zip, folder + "plans/" + Numbered(i, "json"), Encoding.UTF8.GetBytes(written.Plans[i].Document));
        }

        for (int i = 0; i < written.Decisions.Count; i++)
        {
            Write(zip, folder + "decisions/" + Numbered(i, "json"), Encoding.UTF8.GetBytes(written.Decisions[i].Figures));
        }

        if (written.Words.Any(w => w.RemovedAt is null))
        {
            Write(zip, folder + "words.csv", KeptRows.WordText(written.Words.Where(w => w.RemovedAt is null), written.Recalls.Where(r => r.RemovedAt is null)));
        }

        Write(zip, folder + "evidence.csv", KeptRows.EvidenceText(written.Evidence.Where(r => r.RemovedAt is null)));
        Write(zip, folder + "study-log.csv", KeptRows.StudyText(written.Sessions.Where(r => r.RemovedAt is null)));
    }

    /// <summary>Reads a whole export.</summary>
    /// <param name="zip">The zip.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="problems">Gets everything that is wrong.</param>
    public static (List<StoredExam> Exams, List<StoredCase> Cases) Read(ZipArchive zip, string name, List<FileProblem> problems)
    {
        List<StoredExam> exams = [];
        List<StoredCase> cases = [];
        if (zip.GetEntry(Mark) is null)
        {
            problems.Add(new(name, 1, $"This is no export of Homestretch: it holds no {Mark}."));
            return (exams, cases);
        }

        if (zip.Entries.Sum(e => e.Length) > MostBytes)
        {
            problems.Add(new(name, 1, $"Unpacked, this would be more than {MostBytes / (1024 * 1024 * 1024)} GB."));
            return (exams, cases);
        }

        foreach (ZipArchiveEntry entry in zip.Entries)
        {
            string[] path = entry.FullName.Split('/');
            if (path is ["exams", var examKey, "exam.json"] && Parse<StoredExam>(entry, name, examKey, e => e.Key, problems) is { } exam)
            {
                for (int i = 0; i < exam.Versions.Count; i++)
                {
                    exam.Versions[i].Content = Beside(zip, $"exams/{examKey}/{Numbered(i, "yaml")}", name, problems);
                }

                for (int i = 0; i < exam.Files.Count; i++)
                {
                    exam.Files[i].Content = Beside(zip, $"exams/{examKey}/files/{Numbered(i, Extension(exam.Files[i].Name))}", name, problems);
                }

                exams.Add(exam);
            }
            else if (path is ["cases", var caseKey, "case.json"] && Parse<StoredCase>(entry, name, caseKey, c => c.Key, problems) is { } found)
            {
                string folder = $"cases/{caseKey}/";
                for (int i = 0; i < found.Files.Count; i++)
                {
                    found.Files[i].Content = Beside(zip, folder + "files/" + Numbered(i, Extension(found.Files[i].Role)), name, problems);
                }

                for (int i = 0; i < found.Plans.Count; i++)
                {
                    found.Plans[i].Document = Encoding.UTF8.GetString(Beside(zip, folder + "plans/" + Numbered(i, "json"), name, problems));
                }

                for (int i = 0; i < found.Decisions.Count; i++)
                {
                    found.Decisions[i].Figures = Encoding.UTF8.GetString(Beside(zip, folder + "decisions/" + Numbered(i, "json"), name, problems));
                }

                cases.Add(found);
            }
        }

        return (exams, cases);
    }

    private static T? Parse<T>(ZipArchiveEntry entry, string name, string folder, Func<T, string> key, List<FileProblem> problems)
        where T : class
    {
        string file = $"{name}/{entry.FullName}";
        try
        {
            T? value = JsonSerializer.Deserialize<T>(Bytes(entry), _json);
            if (value is not null && key(value) == folder)
            {
                return value;
            }

            problems.Add(new(file, 1, value is null ? "This is 'null'; an object is expected." : $"The key '{key(value)}' is not the name of its folder, '{folder}'."));
        }
        catch (JsonException e)
        {
            problems.Add(new(file, (int)(e.LineNumber ?? 0) + 1, $"At '{e.Path}': what stands there is missing, unknown or of the wrong kind for an export."));
        }
        catch (InvalidDataException e)
        {
            problems.Add(new(file, 1, e.Message));
        }

        return null;
    }

    private static byte[] Beside(ZipArchive zip, string path, string name, List<FileProblem> problems)
    {
        try
        {
            if (zip.GetEntry(path) is { } entry)
            {
                return Bytes(entry);
            }

            problems.Add(new($"{name}/{path}", 1, "This file is missing from the export."));
        }
        catch (InvalidDataException e)
        {
            problems.Add(new($"{name}/{path}", 1, e.Message));
        }

        return [];
    }

    // What a zip says of its sizes need not be true, so the bytes are counted.
    private static byte[] Bytes(ZipArchiveEntry entry)
    {
        using Stream stream = entry.Open();
        using MemoryStream copy = new();
        byte[] buffer = new byte[81920];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            copy.Write(buffer, 0, read);
            if (copy.Length > MostEntryBytes)
            {
                throw new InvalidDataException($"Unpacked, this is more than {MostEntryBytes / (1024 * 1024)} MB.");
            }
        }

        return copy.ToArray();
    }

    private static void Write(ZipArchive zip, string path, ReadOnlySpan<byte> bytes)
    {
        ZipArchiveEntry entry = zip.CreateEntry(path);

        // Two exports of the same content are the same bytes.
        entry.LastWriteTime = new DateTimeOffset(2000, 1, 1, 0, 0, 0, TimeSpan.Zero);
        using Stream stream = entry.Open();
        stream.Write(bytes);
    }

    private static string Numbered(int index, string extension) => $"{index + 1:0000}.{extension}";

    // A name comes from outside; only what it ends with is used, and only where it is plain.
    private static string Extension(string name)
        => Path.GetExtension(name) is { Length: >= 2 and <= 6 } end && end.Skip(1).All(char.IsAsciiLetterOrDigit) ? end[1..].ToLowerInvariant() : "bin";

    private static string Extension(FileRole role) => role switch
    {
        FileRole.Exam or FileRole.FreeTime => "yaml",
        FileRole.Busy => "ics",
        _ => "csv",
    };
}
