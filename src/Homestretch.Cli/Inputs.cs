using System.Collections.Immutable;

using Homestretch.Cli.Commands;
using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;
using Homestretch.Files.ItemBanks;
using Homestretch.Files.Plans;
using Homestretch.Files.QuizItems;
using Homestretch.Files.Resources;
using Homestretch.Files.StudyLogs;
using Homestretch.Files.WordLists;

using NodaTime;

namespace Homestretch.Cli;

/// <summary>Reads what a command names and gathers the problems of all files, so that a person mends them in one go.</summary>
internal sealed class Inputs
{
    private readonly List<FileProblem> _problems = [];

    /// <summary>The exam, or null and its problems noted.</summary>
    public Exam? Exam(string path) => Note(ExamFile.Read(path));

    /// <summary>The free time, or null and its problems noted.</summary>
    public FreeTime? FreeTime(string path) => Note(FreeTimeFile.Read(path));

    /// <summary>Busy times from all calendars.</summary>
    public ImmutableArray<Interval> Busy(IEnumerable<string> paths, DateTimeZone zone, Interval horizon)
        => [.. paths.SelectMany(path => Note(BusyFile.Read(path, zone, horizon))?.Busy ?? [])];

    /// <summary>One person's results and study: of the person named, or of the only one there is.</summary>
    /// <param name="settings">Names evidence, logs, cohort, item bank and the person.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then its topics cannot be checked, only whether the files are there.</param>
    public StudiedCandidate? Candidate(PersonSettings settings, Exam? exam) => Candidate(settings, exam, names => Chosen(names, settings, ""));

    /// <summary>The same, or somebody of whom there are no results yet.</summary>
    /// <inheritdoc cref="Candidate(PersonSettings, Exam?)" path="/param"/>
    public StudiedCandidate? CandidateOrNewcomer(NextSettings settings, Exam? exam)
        => Candidate(settings, exam, names => settings.IsNew ? Newcomer(names, settings) : Chosen(names, settings, " For somebody new add --newcomer."));

    private StudiedCandidate? Candidate(PersonSettings settings, Exam? exam, Func<ImmutableArray<string>, string?> choose)
    {
        EvidenceSheet? sheet = settings.EvidencePaths.Length == 0 ? new([]) : Evidence(settings.EvidencePaths, exam);
        StudyLog? log = settings.LogPaths.Length == 0 ? null : Log(settings.LogPaths, exam);
        EvidenceSheet? cohort = settings.CohortPaths.Length == 0 ? null : Evidence(settings.CohortPaths, exam);
        ItemBank? bank = settings.BankPath is { } path ? Bank(path, exam) : null;
        if (exam is null || sheet is null || choose(sheet.Candidates) is not { } name)
        {
            return null;
        }

        if (log is not null && log.SessionsOf(name).IsEmpty
            && NearestName.Suggest(name, log.Candidates.Where(c => !sheet.Candidates.Contains(c, StringComparer.OrdinalIgnoreCase))) is { } near
            && log.SessionsOf(near) is [LoggedSession first, ..])
        {
            _problems.Add(new(first.File, first.Line, $"column 'candidate': the log names '{near}' and not '{name}', as the evidence does; write the name alike in both if it is one person."));
        }

        return new(exam, name, sheet.With(cohort).Attempts, log, bank);
    }

    // The person named, or the only one there is.
    private string? Chosen(ImmutableArray<string> names, PersonSettings settings, string hint)
    {
        string? wanted = settings.Candidate;
        string? name = wanted is null
            ? names.Length == 1 ? names[0] : null
            : names.FirstOrDefault(n => string.Equals(n, wanted.Trim(), StringComparison.OrdinalIgnoreCase));
        if (name is null)
        {
            _problems.Add(new(settings.EvidencePaths[0], 1, wanted is null
                ? $"The evidence is of {names.Length} candidates; choose one with --candidate: {Listed(names)}."
                : NearestName.Suggest(wanted, names) is { } near
                    ? $"There is no candidate '{wanted}' in the evidence; did you mean '{near}'? It names: {Listed(names)}.{hint}"
                    : $"There is no candidate '{wanted}' in the evidence. It names: {Listed(names)}.{hint}"));
        }

        return name;
    }

    private string? Newcomer(ImmutableArray<string> names, NextSettings settings)
    {
        string name = settings.Candidate!.Trim();
        if (!names.Contains(name, StringComparer.OrdinalIgnoreCase))
        {
            return name;
        }

        _problems.Add(new(settings.EvidencePaths[0], 1, $"'{name}' is in the evidence already; leave out --newcomer."));
        return null;
    }

    /// <summary>Items to practise on, or null and problems noted.</summary>
    /// <param name="paths">Files of items.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then only whether the files are there is checked.</param>
    /// <param name="topic">Topic of items that name none, or null.</param>
    public QuizItemSet? QuizItems(IReadOnlyList<string> paths, Exam? exam, string? topic)
        => Against(exam, paths, of => QuizItemFile.ReadAll(paths, of, topic));

    /// <summary>What there is to study from, or null and problems noted.</summary>
    /// <param name="path">The catalogue.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then only whether the file is there is checked.</param>
    public ResourceCatalogue? Resources(string path, Exam? exam)
        => Against(exam, [path], of => ResourceFile.Read(path, of));

    private StudyLog? Log(IReadOnlyList<string> paths, Exam? exam)
        => Against(exam, paths, of => StudyLogFile.ReadAll(paths, of));

    /// <summary>The words, or null and problems noted.</summary>
    /// <param name="paths">Files of words.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then only whether the files are there is checked.</param>
    public WordList? Words(IReadOnlyList<string> paths, Exam? exam)
        => Against(exam, paths, of => WordFile.ReadAll(paths, of));

    private ItemBank? Bank(string path, Exam? exam)
        => Against(exam, [path], of => ItemBankFile.Read(path, of));

    /// <summary>The earlier plan, or null and problems noted; blocks that a log names must be in it.</summary>
    /// <param name="path">Its file.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then only whether the file is there is checked.</param>
    /// <param name="candidate">The person; null when that is not known.</param>
    public EarlierPlan? Before(string path, Exam? exam, StudiedCandidate? candidate)
    {
        EarlierPlan? plan = Against(exam, [path], of => PlanFile.Read(path, of, candidate?.Name));
        foreach (LoggedSession session in candidate?.Sessions ?? [])
        {
            if (plan is not null && session.Session.Block is { } block && plan.Blocks.All(b => b.Id != block))
            {
                string near = NearestName.Suggest(block, plan.Blocks.Select(b => b.Id)) is { } n ? $" Did you mean '{n}'?" : "";
                _problems.Add(new(session.File, session.Line, $"column 'block': the plan in {path} has no block '{block}'.{near}"));
            }
        }

        return plan;
    }

    /// <summary>Everyone's attempts, or null and problems noted.</summary>
    /// <param name="paths">Evidence files.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then only whether the files are there is checked.</param>
    public EvidenceSheet? Evidence(IReadOnlyList<string> paths, Exam? exam)
        => Against(exam, paths, of => EvidenceFile.ReadAll(paths, of));

    // What files hold, judged by the exam. Without one there is nothing to judge them by, only whether they are there.
    private T? Against<T>(Exam? exam, IReadOnlyList<string> paths, Func<Exam, ReadResult<T>> read)
        where T : class
    {
        if (exam is not null)
        {
            return Note(read(exam));
        }

        _problems.AddRange(paths.Where(p => !File.Exists(p) && !Directory.Exists(p)).Select(p => new FileProblem(p, 1, "There is no such file.")));
        return null;
    }

    /// <summary>Notes a problem with what the files hold together.</summary>
    public void Refuse(string path, string message) => _problems.Add(new FileProblem(path, 1, message));

    /// <summary>Ends the command when anything was wrong with any file.</summary>
    /// <exception cref="BadInputException">Something was.</exception>
    public void Check()
    {
        if (_problems.Count > 0)
        {
            throw new BadInputException(_problems);
        }
    }

    private static string Listed(ImmutableArray<string> names)
    {
        const int Most = 20;
        return string.Join(", ", names.Take(Most)) + (names.Length > Most ? $" and {names.Length - Most} more" : "");
    }

    private T? Note<T>(ReadResult<T> result)
        where T : class
    {
        _problems.AddRange(result.Problems);
        return result.Value;
    }
}
