using System.Data.Common;
using System.IO.Compression;

using Homestretch.Files;

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;

namespace Homestretch.Store;

/// <content>Everything out as files, and in again.</content>
public sealed partial class CaseStore
{
    /// <summary>Writes everything that is kept, or one case and its exam, as a zip of files (docs/export.md).</summary>
    /// <param name="target">Gets the zip; must be writable only.</param>
    /// <param name="key">One case, removed or not; null for everything.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>What was written; no case where there is none of this key.</returns>
    public async Task<StoreCounts> ExportAsync(Stream target, string? key = null, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        await using DbTransaction reading = await ReadingAsync(database, cancellation);
        StoreCounts counts = StoreCounts.None;
        using ZipArchive zip = new(target, ZipArchiveMode.Create, leaveOpen: true);
        StoreArchive.WriteMark(zip);
        List<StoredExam> exams = await WholeExams(database)
            .Where(e => key == null || database.Cases.Any(c => c.Key == key && c.ExamKey == e.Key)).OrderBy(e => e.Key).ToListAsync(cancellation);
        foreach (StoredExam exam in exams)
        {
            StoreArchive.Write(zip, exam);
            counts = counts with { Exams = counts.Exams + 1 };
        }

        // One case at a time: the whole store need not fit into memory.
        List<string> keys = await database.Cases.Where(c => key == null || c.Key == key).Select(c => c.Key).OrderBy(k => k).ToListAsync(cancellation);
        foreach (string next in keys)
        {
            StoredCase found = await Whole(database).SingleAsync(c => c.Key == next, cancellation);
            StoreArchive.Write(zip, found);
            counts = counts.With(found);
        }

        return counts;
    }

    /// <summary>Reads an export into this store, all or nothing. An exam that is here already with the same files is taken as the same; a case that is here already is a problem.</summary>
    /// <param name="source">The zip; must be seekable.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="cancellation">Stops the reading; nothing is kept then.</param>
    public async Task<ReadResult<StoreCounts>> ImportAsync(Stream source, string name, CancellationToken cancellation = default)
    {
        List<FileProblem> problems = [];
        (List<StoredExam> exams, List<StoredCase> cases) = Unpack(source, name, problems);
        await using HomestretchDatabase database = _open();
        await using IDbContextTransaction transaction = await database.Database.BeginTransactionAsync(cancellation);
        StoreCounts counts = StoreCounts.None with { Exams = exams.Count };
        HashSet<string> known = [.. exams.Select(e => e.Key)];
        foreach (StoredExam exam in exams)
        {
            StoredExam? here = await WholeExams(database).FirstOrDefaultAsync(e => e.Key == exam.Key, cancellation);
            if (here is null)
            {
                database.Add(exam);
            }
            else if (!Contents(here).SequenceEqual(Contents(exam), SameBytes.Instance))
            {
                problems.Add(new($"{name}/exams/{exam.Key}/exam.json", 1, $"The exam '{exam.Key}' is here already, with other files."));
            }
        }

        foreach (StoredCase added in cases)
        {
            if (!known.Contains(added.ExamKey))
            {
                problems.Add(new($"{name}/cases/{added.Key}/case.json", 1, $"The exam '{added.ExamKey}' of this case is not in the export."));
            }

            if (await database.Cases.AnyAsync(c => c.Key == added.Key, cancellation))
            {
                problems.Add(new($"{name}/cases/{added.Key}/case.json", 1, $"The case '{added.Key}' is here already. Erase it first, or import into an empty store."));
            }
        }

        if (problems.Count > 0)
        {
            return ReadResult<StoreCounts>.Failed(problems);
        }

        await database.SaveChangesAsync(cancellation);
        foreach (StoredCase added in cases)
        {
            database.ChangeTracker.Clear();
            Summarise(added.Plans);
            database.Add(added);
            await database.SaveChangesAsync(cancellation);
            await RefigureAsync(database, added.Key, cancellation);
            counts = counts.With(added);
        }

        await transaction.CommitAsync(cancellation);
        return ReadResult<StoreCounts>.Ok(counts);
    }

    private static IEnumerable<byte[]> Contents(StoredExam exam) => exam.Versions.Select(v => v.Content).Concat(exam.Files.Select(f => f.Content));

    private static (List<StoredExam> Exams, List<StoredCase> Cases) Unpack(Stream source, string name, List<FileProblem> problems)
    {
        try
        {
            using ZipArchive zip = new(source, ZipArchiveMode.Read, leaveOpen: true);
            return StoreArchive.Read(zip, name, problems);
        }
        catch (InvalidDataException)
        {
            problems.Add(new(name, 1, "This is no zip file, or it is damaged."));
            return ([], []);
        }
    }

    private sealed class SameBytes : IEqualityComparer<byte[]>
    {
        public static SameBytes Instance { get; } = new();

        public bool Equals(byte[]? x, byte[]? y) => x.AsSpan().SequenceEqual(y);

        public int GetHashCode(byte[] obj) => obj.Length;
    }
}
