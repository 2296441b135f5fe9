using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Evidences;
using Homestretch.Store;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Exams;

/// <summary>Reads kept exams, and works out what another version would mean.</summary>
/// <param name="store">Keeps exams and cases.</param>
/// <param name="library">Reads cases.</param>
public sealed class ExamLibrary(CaseStore store, CaseLibrary library)
{
    // Bounds the memory, and the time that a preview takes.
    private const int MostKept = 64;
    private const int MostReadWhole = 200;

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

    /// <summary>What another version of an exam would mean for its cases.</summary>
    /// <param name="stored">The exam as it is kept.</param>
    /// <param name="after">The exam as it would be.</param>
    /// <param name="file">Its file.</param>
    /// <param name="cancellation">Stops the working out.</param>
    public async Task<ExamChange> PreviewAsync(StoredExam stored, Exam after, NamedFile file, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(stored);
        Exam? before = Current(stored) is { } current ? Read(current).Value : null;
        IReadOnlyList<ExamCase> cases = await store.CasesOfExamAsync(stored.Key, cancellation);
        KnownTopics known = new(after);
        List<(string Candidate, string What)> refused =
        [
            .. (await store.TopicsInUseAsync(stored.Key, cancellation))
                .Where(t => !known.Has(t.Topic, t.Subtopic))
                .GroupBy(t => (t.CaseKey, t.Candidate))
                .OrderBy(g => g.Key.Candidate, StringComparer.OrdinalIgnoreCase)
                .Select(g => (g.Key.Candidate, string.Join(", ", g.Select(t => t.Subtopic.Length == 0 ? t.Topic : $"{t.Topic} / {t.Subtopic}").Distinct().Order(StringComparer.OrdinalIgnoreCase)))),
        ];
        HashSet<string> named = [.. refused.Select(r => r.Candidate)];
        List<(string, string, double?, double)> people = [];
        foreach (ExamCase one in cases.Take(MostReadWhole))
        {
            cancellation.ThrowIfCancellationRequested();
            if (named.Contains(one.Candidate) || await store.FindAsync(one.Key, cancellation) is not { } whole)
            {
                continue;
            }

            List<FileProblem> problems = [];
            if (CaseReader.Read(CaseFiles.Of(whole).With(file), problems) is not { } read)
            {
                // What could not be read before is not the new version's fault.
                if (before is not null && (await library.FindAsync(one.Key, cancellation))?.IsOk == true)
                {
                    refused.Add((one.Candidate, string.Join(' ', problems.Take(3).Select(p => p.ToString()))));
                }

                continue;
            }

            if (people.Count < ExamChange.MostPeople)
            {
                ReadCase? was = (await library.FindAsync(one.Key, cancellation))?.Value;
                LocalDate today = library.Now(read).Date;
                people.Add((one.Key, one.Candidate, was is null ? null : Chance(was, today), Chance(read, today)));
            }
        }

        return new(
            before,
            after,
            before is null ? [] : ExamDifference.Of(before, after),
            [.. refused],
            [.. people],
            cases.Count,
            [.. ExamMaterials.Read(stored.Files, after).Problems.GroupBy(p => p.File).Select(g => g.First().ToString())]);
    }

    private static double Chance(ReadCase read, LocalDate today)
    {
        (CandidateStanding standing, _) = read.Person.On(today);
        return ForecastCalculator.Calculate(standing).PassChance;
    }
}
