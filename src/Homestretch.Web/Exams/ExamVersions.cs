using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Evidences;
using Homestretch.Store;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Exams;

/// <summary>Lets another version of an exam's file count, but only where everybody's results, study and words go with it; the one way for the pages and for other programs.</summary>
/// <param name="store">Keeps exams and cases.</param>
/// <param name="library">Reads cases.</param>
/// <param name="plans">Makes plans anew.</param>
public sealed class ExamVersions(CaseStore store, CaseLibrary library, PlansAnew plans)
{
    // Bounds the time that a check takes; the topics of everybody are looked at nevertheless.
    private const int MostReadWhole = 200;

    /// <summary>Whether a file is the one that counts already.</summary>
    public static bool IsCurrent(StoredExam stored, ReadOnlySpan<byte> content) => ExamLibrary.Current(stored) is { } current && current.Content.AsSpan().SequenceEqual(content);

    /// <summary>What another version of an exam would mean for its cases.</summary>
    /// <param name="stored">The exam as it is kept.</param>
    /// <param name="after">The exam as it would be.</param>
    /// <param name="file">Its file.</param>
    /// <param name="cancellation">Stops the working out.</param>
    public Task<ExamChange> PreviewAsync(StoredExam stored, Exam after, NamedFile file, CancellationToken cancellation) => CheckAsync(stored, after, file, ExamChange.MostPeople, cancellation);

    /// <summary>Keeps a new version, which counts from now on, and makes the plans of everybody anew.</summary>
    /// <param name="stored">The exam as it is kept.</param>
    /// <param name="version">The new version.</param>
    /// <param name="after">The exam in it.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>Nobody where it was kept; otherwise those whom it does not go with.</returns>
    public async Task<ImmutableArray<ExamRefusal>> KeepAsync(StoredExam stored, StoredExamVersion version, Exam after, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(stored);
        ArgumentNullException.ThrowIfNull(version);
        ArgumentNullException.ThrowIfNull(after);
        ExamChange change = await CheckAsync(stored, after, FileOf(version), 0, cancellation);
        if (change.Refused.IsEmpty)
        {
            await store.AddExamVersionAsync(stored.Key, version, after.Name, cancellation);
            await PlanAnewAsync(stored.Key, change.Reason(), cancellation);
        }

        return change.Refused;
    }

    /// <summary>Takes a version out or puts one back, after which another one counts.</summary>
    /// <param name="stored">The exam as it is kept.</param>
    /// <param name="counts">The version that counts then.</param>
    /// <param name="after">The exam in it.</param>
    /// <param name="marked">The version to take out or to put back.</param>
    /// <param name="removedAt">When it is taken out; null to put it back.</param>
    /// <param name="otherwise">The reason for new plans where nothing can be compared.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>Whether it was done, and those with whom the version does not go.</returns>
    public async Task<(bool Done, ImmutableArray<ExamRefusal> Refused)> SwitchAsync(
        StoredExam stored, StoredExamVersion counts, Exam after, long marked, Instant? removedAt, string otherwise, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(stored);
        ArgumentNullException.ThrowIfNull(counts);
        ArgumentNullException.ThrowIfNull(after);
        ExamChange change = await CheckAsync(stored, after, FileOf(counts), 0, cancellation);
        if (!change.Refused.IsEmpty || !await store.MarkExamVersionAsync(stored.Key, marked, removedAt, after.Name, cancellation))
        {
            return (false, change.Refused);
        }

        await PlanAnewAsync(stored.Key, change.Reason(otherwise), cancellation);
        return (true, []);
    }

    private static NamedFile FileOf(StoredExamVersion version) => new(FileRole.Exam, version.Name, version.Content);

    private async Task PlanAnewAsync(string key, string why, CancellationToken cancellation)
        => await plans.RefreshAsync(key, [.. (await store.CasesOfExamAsync(key, cancellation)).Select(c => c.Key)], why, cancellation);

    private async Task<ExamChange> CheckAsync(StoredExam stored, Exam after, NamedFile file, int mostChances, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(stored);
        Exam? before = ExamLibrary.Current(stored) is { } current ? ExamLibrary.Read(current).Value : null;
        IReadOnlyList<ExamCase> cases = await store.CasesOfExamAsync(stored.Key, cancellation);
        KnownTopics known = new(after);
        List<ExamRefusal> refused =
        [
            .. (await store.TopicsInUseAsync(stored.Key, cancellation))
                .Where(t => !known.Has(t.Topic, t.Subtopic))
                .GroupBy(t => (t.CaseKey, t.Candidate))
                .OrderBy(g => g.Key.Candidate, StringComparer.OrdinalIgnoreCase)
                .Select(g => new ExamRefusal(
                    g.Key.CaseKey, g.Key.Candidate, string.Join(", ", g.Select(t => t.Subtopic.Length == 0 ? t.Topic : $"{t.Topic} / {t.Subtopic}").Distinct().Order(StringComparer.OrdinalIgnoreCase)))),
        ];
        HashSet<string> named = [.. refused.Select(r => r.CaseKey)];
        List<(string, string, double?, double)> people = [];
        foreach (ExamCase one in cases.Take(MostReadWhole))
        {
            cancellation.ThrowIfCancellationRequested();
            if (named.Contains(one.Key) || await store.FindAsync(one.Key, cancellation) is not { } whole)
            {
                continue;
            }

            List<FileProblem> problems = [];
            if (CaseReader.Read(CaseFiles.Of(whole).With(file), problems) is not { } read)
            {
                // What could not be read before is not the new version's fault.
                if (before is not null && (await library.FindAsync(one.Key, cancellation))?.IsOk == true)
                {
                    refused.Add(new(one.Key, one.Candidate, string.Join(' ', problems.Take(3).Select(p => p.ToString()))));
                }

                continue;
            }

            if (people.Count < mostChances)
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
