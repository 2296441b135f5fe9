using Microsoft.EntityFrameworkCore;

namespace Homestretch.Store;

/// <content>What a change of an exam touches.</content>
public sealed partial class CaseStore
{
    /// <summary>The cases in use that prepare for an exam, by the candidate's name.</summary>
    public async Task<IReadOnlyList<ExamCase>> CasesOfExamAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        List<ExamCase> cases = await database.Cases.Where(c => c.ExamKey == key && c.RemovedAt == null)
            .Select(c => new ExamCase(c.Key, c.Candidate)).ToListAsync(cancellation);
        return [.. cases.OrderBy(c => c.Candidate, StringComparer.OrdinalIgnoreCase).ThenBy(c => c.Key, StringComparer.Ordinal)];
    }

    /// <summary>Topics and subtopics that results, study and words of an exam's cases name, each once a case, as they were written.</summary>
    public async Task<IReadOnlyList<TopicInUse>> TopicsInUseAsync(string key, CancellationToken cancellation = default)
    {
        await using HomestretchDatabase database = _open();
        IQueryable<StoredCase> cases = database.Cases.Where(c => c.ExamKey == key && c.RemovedAt == null);
        List<TopicInUse> all =
        [
            .. await cases.SelectMany(c => c.Evidence.Where(r => r.RemovedAt == null), (c, r) => new TopicInUse(c.Key, c.Candidate, r.Topic, r.Subtopic)).Distinct().ToListAsync(cancellation),
            .. await cases.SelectMany(c => c.Sessions.Where(r => r.RemovedAt == null), (c, r) => new TopicInUse(c.Key, c.Candidate, r.Topic, r.Subtopic)).Distinct().ToListAsync(cancellation),
            .. await cases.SelectMany(c => c.Words.Where(r => r.RemovedAt == null && r.Topic != ""), (c, r) => new TopicInUse(c.Key, c.Candidate, r.Topic, "")).Distinct().ToListAsync(cancellation),
        ];
        return [.. all.Distinct()];
    }
}
