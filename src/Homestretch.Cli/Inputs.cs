using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Files;
using Homestretch.Files.Calendars;
using Homestretch.Files.Evidences;
using Homestretch.Files.Exams;
using Homestretch.Files.FreeTimes;

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

    /// <summary>All attempts of one person: the one named, or the only one there is.</summary>
    /// <param name="paths">Evidence files.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then its topics cannot be checked, only whether the files are there.</param>
    /// <param name="wanted">The person's name, or null.</param>
    public (string Name, ImmutableArray<Attempt> Attempts)? Candidate(IReadOnlyList<string> paths, Exam? exam, string? wanted)
    {
        if (exam is null)
        {
            _problems.AddRange(paths.Where(p => !File.Exists(p) && !Directory.Exists(p)).Select(p => new FileProblem(p, 1, "There is no such file.")));
            return null;
        }

        if (Note(EvidenceFile.ReadAll(paths, exam)) is not { } sheet)
        {
            return null;
        }

        ImmutableArray<string> names = sheet.Candidates;
        string? name = wanted is null
            ? names.Length == 1 ? names[0] : null
            : names.FirstOrDefault(n => string.Equals(n, wanted.Trim(), StringComparison.OrdinalIgnoreCase));
        if (name is null)
        {
            _problems.Add(new(paths[0], 1, wanted is null
                ? $"The evidence is of {names.Length} candidates; choose one with --candidate: {Listed(names)}."
                : NearestName.Suggest(wanted, names) is { } near
                    ? $"There is no candidate '{wanted}' in the evidence; did you mean '{near}'? It names: {Listed(names)}."
                    : $"There is no candidate '{wanted}' in the evidence. It names: {Listed(names)}."));
            return null;
        }

        return (name, sheet.AttemptsOf(name));
    }

    /// <summary>Everyone's attempts, or null and problems noted.</summary>
    /// <param name="paths">Evidence files.</param>
    /// <param name="exam">The exam; null when it has problems of its own: then only whether the files are there is checked.</param>
    public EvidenceSheet? Evidence(IReadOnlyList<string> paths, Exam? exam)
    {
        if (exam is not null)
        {
            return Note(EvidenceFile.ReadAll(paths, exam));
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
