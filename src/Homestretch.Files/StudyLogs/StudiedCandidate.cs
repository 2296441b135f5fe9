using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Measurement;
using Homestretch.Core.Measurement.Equating;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Files.StudyLogs;

/// <summary>One person's results and study among everybody's, ready to speak of any day.</summary>
public sealed class StudiedCandidate
{
    private readonly Exam exam;
    private readonly StudyLog? log;
    private readonly ImmutableArray<StudySession> sessions;
    private readonly ImmutableArray<string> strangers;
    private readonly Lazy<StandingBasis> basis;
    private readonly Lazy<LearningBasis> learning;
    private readonly ItemBank? bank;
    private int assumedDone;

    /// <param name="exam">The exam.</param>
    /// <param name="name">The person's name as the evidence gives it.</param>
    /// <param name="everybody">All attempts that are known, this person's among them; enough people on one test teach the priors, and enough who also have the exam's result how a test compares with it.</param>
    /// <param name="log">All study that is known; null where no log was given, which is not the same as no study.</param>
    /// <param name="bank">Calibrated items, where there are any.</param>
    public StudiedCandidate(Exam exam, string name, ImmutableArray<Attempt> everybody, StudyLog? log, ItemBank? bank = null)
    {
        this.exam = exam;
        this.log = log;
        this.bank = bank;
        Name = name;
        everybody = LearnedForms.Apply(exam, everybody);
        Everybody = everybody;
        Attempts = [.. everybody.Where(a => Same(a.Candidate, name))];
        AttemptsOfOthers = [.. everybody.Where(a => !Same(a.Candidate, name))];
        Sessions = log?.SessionsOf(name) ?? [];
        sessions = [.. Sessions.Select(s => s.Session)];
        strangers = log is null ? [] : [.. log.Candidates.Where(c => !Same(c, name) && everybody.All(a => !Same(a.Candidate, c)))];
        basis = new(() => StandingBasis.Of(exam, everybody, bank).For(Attempts));
        learning = new(() => LearningBasis.Of(exam, everybody, log?.Sessions.Select(s => s.Session) ?? [], Basis.Assumptions, bank));
    }

    /// <summary>The person's name as the evidence gives it.</summary>
    public string Name { get; }

    /// <summary>The person's attempts.</summary>
    public ImmutableArray<Attempt> Attempts { get; }

    /// <summary>All attempts that are known, with what is known of how their tests compare with the exam.</summary>
    public ImmutableArray<Attempt> Everybody { get; }

    /// <summary>Everybody else's attempts.</summary>
    public ImmutableArray<Attempt> AttemptsOfOthers { get; }

    /// <summary>The assumptions and calibrated items that the standing rests on.</summary>
    public StandingBasis Basis => basis.Value;

    /// <summary>The person's sessions in the log.</summary>
    public ImmutableArray<LoggedSession> Sessions { get; }

    /// <summary>The day of the latest test or session.</summary>
    public LocalDate LastDay => Attempts.Select(a => a.Date).Concat(sessions.Select(s => s.Date)).Max();

    /// <summary>Where the person stands on a day, and what the log says up to it; null where there is no log.</summary>
    public (CandidateStanding Standing, StudyReport? Study) On(LocalDate day)
    {
        if (log is null)
        {
            return (Basis.Standing(Attempts, day), null);
        }

        LearningBasis learned = learning.Value;
        StudyHistory study = new(exam, sessions, learned.Learning);
        CandidateStanding standing = Basis.Standing(Attempts, day, study);
        CandidateStanding? atAssumedRate = standing.Rate is { Tests: > 0 }
            ? Basis.Standing(Attempts, day, study.With(exam, learned.Learning with { RateLogSd = 0 }))
            : null;
        return (standing, new StudyReport(StudyDone.Of(standing, atAssumedRate), standing.Rate, learned, [.. Notes(day)]));
    }

    /// <summary>This person with the blocks of an earlier plan up to a moment taken as done, where no log says what was.</summary>
    public StudiedCandidate TakingAsDone(EarlierPlan plan, ZonedDateTime from)
    {
        ArgumentNullException.ThrowIfNull(plan);
        if (log is not null)
        {
            return this;
        }

        ImmutableArray<LoggedSession> done = [.. plan.Blocks
            .Where(b => b.Fate == BlockFate.Done || (b.Fate == BlockFate.Planned && b.Time.Start < from.ToInstant()))
            .Select(b => new StudySession(Name, b.Topic, b.DoneOn ?? b.Time.Start.InZone(plan.From.Zone).Date, b.Minutes, b.Purpose.Kind()) { Block = b.Id })
            .Select(s => new LoggedSession(s, string.Empty, 1))];
        return new(exam, Name, Everybody, new StudyLog(done), bank) { assumedDone = done.Length };
    }

    private IEnumerable<string> Notes(LocalDate day)
    {
        if (assumedDone > 0)
        {
            yield return $"No study log was given, so {Figures.Plural(assumedDone, "block")} of the earlier plan {(assumedDone == 1 ? "counts" : "count")} as done as planned. A log (--log) would say what was done.";
        }

        int later = sessions.Count(s => s.Date > day);
        if (later > 0)
        {
            yield return $"{Figures.Plural(later, "session")} after {Dates.Plain(day)} {(later == 1 ? "does" : "do")} not count yet.";
        }

        if (!strangers.IsEmpty)
        {
            yield return $"The log also names {string.Join(", ", strangers)}, of whom the evidence knows nothing.";
        }
    }

    private static bool Same(string one, string other) => string.Equals(one, other, StringComparison.OrdinalIgnoreCase);
}
