using System.Collections.Concurrent;
using System.Collections.Immutable;

using Homestretch.Core.Forecasting;
using Homestretch.Core.Measurement;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Planning.Resources;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.StudyLogs;

using NodaTime;

namespace Homestretch.Web.Cases;

/// <summary>A case with all that does not change while a person tries assumptions: the standing and the busy times.</summary>
/// <param name="Case">The case.</param>
/// <param name="Today">The day it is prepared for, in the person's zone.</param>
/// <param name="Basis">The assumptions and calibrated items that the standing rests on.</param>
/// <param name="Standing">Where the person stands on that day.</param>
/// <param name="Study">The study done up to that day; null where none is known.</param>
/// <param name="Busy">Busy times up to <see cref="LastExamDay"/>.</param>
public sealed record PreparedCase(ReadCase Case, LocalDate Today, StandingBasis Basis, CandidateStanding Standing, StudyReport? Study, ImmutableArray<Interval> Busy)
{
    /// <summary>An exam further away than this is not planned for day by day.</summary>
    public const int MostDaysAhead = 182;

    // Bounds the memory.
    private const int MostTablesKept = 16;

    private readonly ConcurrentDictionary<Policy, (ZonedDateTime From, EarlierPlan? Earlier, CandidateReport Report)> _own = new();

    private readonly ConcurrentDictionary<string, (ZonedDateTime From, SensitivityTable Table)> _sensitivity = new();

    /// <summary>The last exam day that can be asked about.</summary>
    public LocalDate LastExamDay => LastExamDayFrom(Today);

    /// <summary>The report under the case's own figures, which every changed one is compared with; computed once a moment, policy and earlier plan.</summary>
    /// <param name="from">The moment from which it is planned.</param>
    /// <param name="policy">The order of study.</param>
    /// <param name="earlier">The plan it goes on from, told apart by reference; null where it is made from scratch.</param>
    /// <param name="compute">Works it out.</param>
    public CandidateReport OwnReport(ZonedDateTime from, Policy policy, EarlierPlan? earlier, Func<CandidateReport> compute)
    {
        ArgumentNullException.ThrowIfNull(compute);
        if (_own.TryGetValue(policy, out (ZonedDateTime From, EarlierPlan? Earlier, CandidateReport Report) known) && known.From == from && ReferenceEquals(known.Earlier, earlier))
        {
            return known.Report;
        }

        CandidateReport report = compute();
        _own[policy] = (from, earlier, report);
        return report;
    }

    /// <summary>Which of the model's assumptions a plan hangs on; computed once a moment and address.</summary>
    /// <param name="from">The moment from which it is planned.</param>
    /// <param name="query">The part of an address that says what the person assumes.</param>
    /// <param name="compute">Works it out.</param>
    public SensitivityTable Sensitivity(ZonedDateTime from, string query, Func<SensitivityTable> compute)
    {
        ArgumentNullException.ThrowIfNull(compute);
        if (_sensitivity.TryGetValue(query, out (ZonedDateTime From, SensitivityTable Table) known) && known.From == from)
        {
            return known.Table;
        }

        if (_sensitivity.Count >= MostTablesKept)
        {
            _sensitivity.Clear();
        }

        SensitivityTable table = compute();
        _sensitivity[query] = (from, table);
        return table;
    }

    /// <summary>The report on a standing of this case, with a plan.</summary>
    /// <param name="standing">The standing.</param>
    /// <param name="makePlan">Makes the plan; what can be said without it is worked out meanwhile.</param>
    public CandidateReport ReportOn(CandidateStanding standing, Func<StudyPlan> makePlan)
    {
        ArgumentNullException.ThrowIfNull(makePlan);
        Task<CandidateReport> today = Task.Run(() => new CandidateReport(Case.Candidate, standing, Basis, ForecastCalculator.Calculate(standing), WorthCalculator.NextMinutes(standing), null) { Study = Study });
        StudyPlan plan = makePlan();
        return today.GetAwaiter().GetResult() with
        {
            Plan = plan,
            Material = Case.Resources?.Value is { } catalogue ? MaterialFinder.Find(plan, standing.Exam, catalogue.Resources, Case.Person.Sessions.Select(s => s.Session)) : null,
        };
    }

    /// <summary>The last exam day that can be asked about on a day.</summary>
    public static LocalDate LastExamDayFrom(LocalDate today) => today.PlusDays(MostDaysAhead);
}
