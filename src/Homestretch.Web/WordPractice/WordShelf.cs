using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Words;
using Homestretch.Files;
using Homestretch.Files.QuizItems;
using Homestretch.Files.WordLists;
using Homestretch.Store;
using Homestretch.Web.Cases;
using Homestretch.Web.Exams;

using NodaTime;
using NodaTime.Extensions;
using NodaTime.Text;

namespace Homestretch.Web.WordPractice;

/// <summary>The unknown words of every case: read, noted, defined, recalled, taken out and put back.</summary>
/// <param name="store">Keeps them.</param>
/// <param name="time">The clock.</param>
public sealed class WordShelf(CaseStore store, TimeProvider time)
{
    /// <summary>Minutes a day that words may take.</summary>
    public const int MinutesPerDay = 10;

    /// <summary>What problems call words that were typed.</summary>
    public const string Form = "the form";

    // Bounds the memory.
    private const int MostKept = 256;

    private readonly ConcurrentDictionary<string, (string State, CaseWords Words)> _read = new();

    /// <summary>The words of a case on a day.</summary>
    /// <param name="of">The case.</param>
    /// <param name="today">The day, in the person's zone.</param>
    /// <param name="cancellation">Stops the reading.</param>
    public async Task<CaseWords> ReadAsync(ReadCase of, LocalDate today, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        (IReadOnlyList<WordRow> rows, IReadOnlyList<RecallRow> recalls) = await store.WordsAsync(of.Key, cancellation);

        // Rows never change, so their numbers say all.
        string state = string.Create(
            CultureInfo.InvariantCulture,
            $"{today} {of.ExamDay} {of.Exam.GetHashCode()} {string.Join(',', rows.Select(r => r.Id))} {string.Join(',', recalls.Select(r => r.Id))}");
        if (_read.TryGetValue(of.Key, out (string State, CaseWords Words) known) && known.State == state)
        {
            return known.Words;
        }

        ImmutableArray<Word> words = Parse("words", rows, recalls, of.Exam).Value?.Words
            ?? throw new InvalidOperationException($"The words of case '{of.Key}' were checked when they came and cannot be read now.");
        WordPlan? plan = today < of.ExamDay ? WordPlanner.Plan(words, today, of.ExamDay, WordAssumptions.Default.Recalls(MinutesPerDay)) : null;
        CaseWords read = new(words, [.. rows], [.. recalls], plan);
        if (_read.Count >= MostKept)
        {
            _read.Clear();
        }

        _read[of.Key] = (state, read);
        return read;
    }

    /// <summary>Keeps what was written of a word, or says what stands in the way.</summary>
    /// <param name="of">The case.</param>
    /// <param name="row">The row, with the fields as typed.</param>
    /// <param name="cancellation">Stops the keeping.</param>
    /// <returns>Nothing where it was kept.</returns>
    public Task<ImmutableArray<FileProblem>> KeepAsync(ReadCase of, WordRow row, CancellationToken cancellation) => KeepAsync(of, Form, [row], cancellation);

    /// <summary>Keeps several rows, words or recalls, all or none: they are read together with what is there.</summary>
    /// <param name="of">The case.</param>
    /// <param name="source">What the problems call them.</param>
    /// <param name="added">The rows, words first.</param>
    /// <param name="cancellation">Stops the keeping.</param>
    /// <returns>Nothing where they were kept; otherwise everything that stands in the way.</returns>
    public async Task<ImmutableArray<FileProblem>> KeepAsync(ReadCase of, string source, IReadOnlyCollection<KeptRow> added, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(added);
        ImmutableArray<FileProblem> problems = await ProblemsAsync(of, source, added, cancellation);
        if (problems.IsEmpty && added.Count > 0)
        {
            await store.KeepAsync(of.Key, added, cancellation);
        }

        return problems;
    }

    /// <summary>Notes how a recall went today; null where there is no such word, or nothing to look at.</summary>
    /// <param name="of">The case.</param>
    /// <param name="today">Today, in the person's zone.</param>
    /// <param name="term">The word.</param>
    /// <param name="outcome">How it went.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The number of the row.</returns>
    public async Task<long?> RecallAsync(ReadCase of, LocalDate today, string term, RecallOutcome outcome, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        CaseWords words = await ReadAsync(of, today, cancellation);
        if (words.Find(term) is not { HasDefinition: true } word || word.Noted > today)
        {
            return null;
        }

        string date = LocalDatePattern.Iso.Format(today);
        if (words.Recalls.LastOrDefault(r => CaseWords.Same(r.Term, word.Term) && r.Date == date) is { Origin: Origin.Candidate } said)
        {
            // A second tap, or a second pass on one day, which says little.
            return said.Id;
        }

        RecallRow row = new() { At = time.GetUtcNow().ToInstant(), Origin = Origin.Candidate, Term = word.Term, Date = date, Outcome = OutcomeNames.Of(outcome) };
        return (await KeepAsync(of, Form, [row], cancellation)).IsEmpty ? row.Id : null;
    }

    /// <summary>Takes a recall of the candidate's back; false where there is none.</summary>
    public async Task<bool> TakeBackAsync(ReadCase of, LocalDate today, long id, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        CaseWords words = await ReadAsync(of, today, cancellation);
        return words.Recalls.Any(r => r.Id == id && r.Origin == Origin.Candidate)
            && await store.TakeOutAsync<RecallRow>(of.Key, [id], time.GetUtcNow().ToInstant(), cancellation) > 0;
    }

    /// <summary>Takes a word out with its recalls; null where there is none.</summary>
    /// <returns>The numbers of its rows and of its recalls, by which it can be put back.</returns>
    public async Task<(ImmutableArray<long> Rows, ImmutableArray<long> Recalls)?> DeleteAsync(ReadCase of, LocalDate today, string term, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        CaseWords words = await ReadAsync(of, today, cancellation);
        ImmutableArray<long> rows = [.. words.RowsOf(term).Select(r => r.Id)];
        ImmutableArray<long> recalls = [.. words.Recalls.Where(r => CaseWords.Same(r.Term, term)).Select(r => r.Id)];
        if (rows.IsEmpty)
        {
            return null;
        }

        // The word first: recalls without their word count for nothing, while a word without its recalls would look new.
        Instant now = time.GetUtcNow().ToInstant();
        await store.TakeOutAsync<WordRow>(of.Key, rows, now, cancellation);
        await store.TakeOutAsync<RecallRow>(of.Key, recalls, now, cancellation);
        return (rows, recalls);
    }

    /// <summary>Puts a word back that was taken out, unless it has been noted anew since.</summary>
    public async Task<bool> PutBackAsync(ReadCase of, LocalDate today, IReadOnlyCollection<long> rows, IReadOnlyCollection<long> recalls, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        if (await store.FindWholeAsync(of.Key, cancellation) is not { } whole)
        {
            return false;
        }

        CaseWords words = await ReadAsync(of, today, cancellation);
        WordRow[] gone = [.. whole.Words.Where(r => rows.Contains(r.Id) && r.RemovedAt is not null)];
        RecallRow[] with = [.. whole.Recalls.Where(r => recalls.Contains(r.Id) && r.RemovedAt is not null && gone.Any(w => CaseWords.Same(w.Term, r.Term)))];
        if (gone.Length == 0 || gone.Any(r => words.Find(r.Term) is not null) || !Parse("words", [.. words.Rows, .. gone], [.. words.Recalls, .. with], of.Exam).IsOk)
        {
            return false;
        }

        await store.PutBackAsync<RecallRow>(of.Key, [.. with.Select(r => r.Id)], cancellation);
        return await store.PutBackAsync<WordRow>(of.Key, [.. gone.Select(r => r.Id)], cancellation) > 0;
    }

    /// <summary>Takes rows of words or of recalls out by number, or puts them back, as far as the words can be read afterwards: a word noted late must not be left with recalls from before.</summary>
    /// <typeparam name="T">What kind of rows.</typeparam>
    /// <param name="key">The case.</param>
    /// <param name="ids">Which.</param>
    /// <param name="removedAt">When they are taken out; null to put them back.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>How many rows are in another state now, or what stands in the way, and nothing was changed.</returns>
    public async Task<(int Changed, ImmutableArray<FileProblem> Problems)> MarkAsync<T>(string key, IReadOnlyCollection<long> ids, Instant? removedAt, CancellationToken cancellation)
        where T : KeptRow
    {
        if (await store.FindWholeAsync(key, cancellation) is not { } whole)
        {
            return (0, []);
        }

        HashSet<long> marked = [.. ids];
        bool Counts(KeptRow row) => row is T && marked.Contains(row.Id) ? removedAt is null : row.RemovedAt is null;
        if (ExamLibrary.Current(whole.Exam!) is { } version && ExamLibrary.Read(version).Value is { } exam
            && Parse("words", [.. whole.Words.Where(Counts)], [.. whole.Recalls.Where(Counts)], exam) is { IsOk: false } unreadable)
        {
            return (0, unreadable.Problems);
        }

        return (await store.MarkAsync<T>(key, ids, removedAt, cancellation), []);
    }

    /// <summary>Keeps the coach's definitions: of the words of one case, and of the same terms wherever else somebody who prepares for the exam noted them.</summary>
    /// <param name="of">The case.</param>
    /// <param name="today">Today, in the person's zone.</param>
    /// <param name="definitions">The definition by term; terms without a word, and definitions that are as they were, are passed over.</param>
    /// <param name="everywhere">Whether they are for everybody who noted these terms.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>How many words got a definition, or what stands in the way, and nothing was kept.</returns>
    public async Task<(int Defined, ImmutableArray<FileProblem> Problems)> DefineAsync(
        ReadCase of, LocalDate today, IReadOnlyDictionary<string, string> definitions, bool everywhere, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        ArgumentNullException.ThrowIfNull(definitions);
        CaseWords words = await ReadAsync(of, today, cancellation);
        Instant now = time.GetUtcNow().ToInstant();
        KeyValuePair<string, string>[] known = [.. definitions.Where(d => words.Find(d.Key) is not null)];
        WordRow[] changed = [.. known.Select(d => Defined(words.Latest(d.Key), d.Value, of.Exam, now)).OfType<WordRow>()];
        if (await ProblemsAsync(of, Form, changed, cancellation) is { IsEmpty: false } problems)
        {
            return (0, problems);
        }

        Dictionary<string, IEnumerable<KeptRow>> rows = changed.Length == 0 ? [] : new() { [of.Key] = changed };
        if (everywhere && await store.ExamKeyAsync(of.Key, cancellation) is { } exam)
        {
            IEnumerable<WordRow> others = await store.WordsOfExamAsync(exam, cancellation);
            foreach (IGrouping<string, WordRow> person in others.Where(r => r.CaseKey != of.Key).GroupBy(r => r.CaseKey))
            {
                WordRow[] theirs = [.. person.GroupBy(r => r.Term, StringComparer.OrdinalIgnoreCase).Select(g => g.Last())
                    .Select(row => known.FirstOrDefault(d => CaseWords.Same(row.Term, d.Key)) is { Key: not null, Value.Length: > 0 } found ? Defined(row, found.Value, of.Exam, now) : null).OfType<WordRow>()];
                if (theirs.Length > 0)
                {
                    rows[person.Key] = theirs;
                }
            }
        }

        // For the whole room in one step: nobody is left with half of it.
        return await store.KeepAllAsync(rows, cancellation)
            ? (rows.Values.Sum(r => r.Count()), [])
            : (0, [new(Form, 1, "Somebody's case was removed in the meantime. Keep the definitions once more.")]);
    }

    /// <summary>The rows of a words file that add something to what is kept; words first.</summary>
    /// <param name="words">What is kept.</param>
    /// <param name="file">The rows of the file.</param>
    public static ImmutableArray<KeptRow> New(CaseWords words, IEnumerable<KeptRow> file)
    {
        ArgumentNullException.ThrowIfNull(words);
        HashSet<(string, string, string)> recalls = [.. words.Recalls.Select(Key)];
        return [.. file.Where(row => row switch
        {
            WordRow word => words.Find(word.Term) is null || words.Latest(word.Term) is var latest
                && (latest.Topic, latest.Definition, latest.CoachDefinition, latest.Noted) != (word.Topic, word.Definition, word.CoachDefinition, word.Noted),
            RecallRow recall => recalls.Add(Key(recall)),
            _ => false,
        })];

        static (string, string, string) Key(RecallRow row) => (row.Term.ToUpperInvariant(), row.Date, row.Outcome);
    }

    // What stands in the way of some rows, read together with what is there.
    private async Task<ImmutableArray<FileProblem>> ProblemsAsync(ReadCase of, string source, IReadOnlyCollection<KeptRow> added, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(of);
        (IReadOnlyList<WordRow> rows, IReadOnlyList<RecallRow> recalls) = await store.WordsAsync(of.Key, cancellation);
        WordRow[] words = [.. added.OfType<WordRow>()];

        // Their own topics must be the exam's; those of older rows may have gone with a newer version of the exam.
        return words.Length > 0 && WordFile.ParseAll([(source, KeptRows.WordText(words, []))], of.Exam) is { IsOk: false } alone
            ? alone.Problems
            : Parse(source, [.. rows, .. words], [.. recalls, .. added.OfType<RecallRow>()], of.Exam).Problems;
    }

    // A topic that the exam no longer has is dropped: the word stays.
    private static ReadResult<WordList> Parse(string source, IReadOnlyList<WordRow> rows, IReadOnlyList<RecallRow> recalls, Exam exam)
        => rows.Count == 0 ? ReadResult<WordList>.Ok(new WordList([])) : WordFile.ParseAll(
            [(source, KeptRows.WordText(rows.Select(r => KnownTopic(r, exam) == r.Topic ? r : WithoutTopic(r)), recalls))],
            exam);

    // Null where it says so already.
    private static WordRow? Defined(WordRow row, string definition, Exam exam, Instant now) => row.CoachDefinition == definition ? null : new()
    {
        At = now,
        Origin = Origin.Coach,
        Term = row.Term,
        Topic = KnownTopic(row, exam),
        Definition = row.Definition,
        CoachDefinition = definition,
        Noted = row.Noted,
    };

    private static string KnownTopic(WordRow row, Exam exam) => row.Topic.Length == 0 || QuizItemFile.TopicProblem(exam, row.Topic) is null ? row.Topic : "";

    private static WordRow WithoutTopic(WordRow row) => new()
    {
        At = row.At,
        Origin = row.Origin,
        Term = row.Term,
        Definition = row.Definition,
        CoachDefinition = row.CoachDefinition,
        Noted = row.Noted,
    };
}
