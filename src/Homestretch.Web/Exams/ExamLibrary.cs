using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Files;
using Homestretch.Store;
using Homestretch.Web.Cases;

namespace Homestretch.Web.Exams;

/// <summary>Reads kept exams.</summary>
public sealed class ExamLibrary
{
    // Bounds the memory.
    private const int MostKept = 64;

    private readonly ConcurrentDictionary<string, (string Stamp, ExamMaterials Materials)> _materials = new();

    /// <summary>A key for a new exam: readable, and with a part that cannot be guessed.</summary>
    public static string NewKey(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        string readable = new([.. name.Normalize(NormalizationForm.FormD).ToLowerInvariant().Select(c => char.IsWhiteSpace(c) ? '-' : c).Where(c => c == '-' || char.IsAsciiLetterOrDigit(c)).Take(40)]);
        readable = string.Join('-', readable.Split('-', StringSplitOptions.RemoveEmptyEntries));
        return (readable.Length == 0 ? "exam" : readable) + "-" + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(4));
    }

    /// <summary>The version of an exam that counts; null where there is none.</summary>
    public static StoredExamVersion? Current(StoredExam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        return exam.Versions.LastOrDefault(v => v.RemovedAt is null);
    }

    /// <summary>The exam in a version's file, or everything that is wrong with it.</summary>
    public static ReadResult<Exam> Read(StoredExamVersion version)
    {
        ArgumentNullException.ThrowIfNull(version);
        return CaseReader.Exam(new NamedFile(FileRole.Exam, version.Name, version.Content));
    }

    /// <summary>What there is to study from for a kept exam; read once as long as nothing changes.</summary>
    public ExamMaterials Materials(StoredExam stored, Exam exam)
    {
        ArgumentNullException.ThrowIfNull(stored);
        string stamp = string.Create(CultureInfo.InvariantCulture, $"{Current(stored)?.Id}/{string.Join(',', stored.Files.Where(f => f.RemovedAt is null).Select(f => f.Id))}");
        if (_materials.TryGetValue(stored.Key, out (string Stamp, ExamMaterials Materials) known) && known.Stamp == stamp)
        {
            return known.Materials;
        }

        if (_materials.Count >= MostKept)
        {
            _materials.Clear();
        }

        ExamMaterials read = ExamMaterials.Read(stored.Files, exam);
        _materials[stored.Key] = (stamp, read);
        return read;
    }
}
