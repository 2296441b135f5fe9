using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files.QuizItems;
using Homestretch.Store;

namespace Homestretch.Web.Quizzing;

/// <summary>The items to practise on that are kept with an exam.</summary>
/// <param name="store">Keeps them.</param>
public sealed class QuizShelf(CaseStore store)
{
    // Bounds the memory.
    private const int MostKept = 64;

    private readonly ConcurrentDictionary<string, (string State, ImmutableArray<QuizItem> Items)> _read = new();

    /// <summary>The items for a case, in the order of the files; none where there are none. Read once for all who prepare for the exam, as long as neither its version nor its files change.</summary>
    /// <param name="caseKey">The case.</param>
    /// <param name="exam">Its exam.</param>
    /// <param name="cancellation">Stops the reading.</param>
    public async Task<ImmutableArray<QuizItem>> ItemsAsync(string caseKey, Exam exam, CancellationToken cancellation)
    {
        if (await store.ExamKeyAsync(caseKey, cancellation) is not { } key || await store.VersionAsync(caseKey, cancellation) is not { } version)
        {
            return [];
        }

        string state = string.Join(',', (await store.ExamFileIdsAsync(key, ExamFileRole.QuizItems, cancellation)).Prepend(version.ExamVersion).Select(id => id.ToString(CultureInfo.InvariantCulture)));
        if (_read.TryGetValue(key, out (string State, ImmutableArray<QuizItem> Items) known) && known.State == state)
        {
            return known.Items;
        }

        // A file that no longer goes with the exam, since a topic got another name, hinders no other.
        Dictionary<string, QuizItem> items = new(StringComparer.Ordinal);
        foreach (StoredExamFile file in await store.ExamFilesAsync(key, ExamFileRole.QuizItems, cancellation))
        {
            foreach (QuizItem item in QuizItemFile.ParseAll([(file.Name, file.Content)], exam).Value?.Items ?? [])
            {
                items.TryAdd(item.Id, item);
            }
        }

        if (_read.Count >= MostKept)
        {
            _read.Clear();
        }

        ImmutableArray<QuizItem> all = [.. items.Values.OrderBy(i => i.File, StringComparer.Ordinal).ThenBy(i => i.Line)];
        _read[key] = (state, all);
        return all;
    }
}
