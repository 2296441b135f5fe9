using System.Collections.Immutable;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Changes;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Assuming;

/// <summary>Everything that a case's page shows.</summary>
/// <param name="Case">The case.</param>
/// <param name="From">The moment from which it is planned.</param>
/// <param name="Assumed">What the person assumes.</param>
/// <param name="Report">The report under these assumptions, with a plan.</param>
/// <param name="Own">The report under the case's own figures, to compare with; null where nothing was changed.</param>
/// <param name="Slots">The free time that the plan could use.</param>
public sealed record WorkbenchView(
    ReadCase Case, ZonedDateTime From, Assumed Assumed, CandidateReport Report, CandidateReport? Own, ImmutableArray<Slot> Slots)
{
    /// <summary>The plan in <see cref="Report"/>.</summary>
    public StudyPlan Plan => Report.Plan ?? throw new InvalidOperationException("A workbench always has a plan.");

    /// <summary>Computes what a page shows. The standing is taken as prepared, so that a changed assumption costs a forecast and a plan only.</summary>
    public static WorkbenchView Build(PreparedCase prepared, ZonedDateTime from, Assumed assumed)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        ArgumentNullException.ThrowIfNull(assumed);
        CandidateReport own = prepared.OwnReport(
            from,
            assumed.Policy,
            () => ReportOn(prepared, from, Assumed.Read(prepared, name => name == Assumed.PolicyField ? Words.Of(assumed.Policy) : null)));
        return new(
            prepared.Case,
            from,
            assumed,
            assumed.Changed ? ReportOn(prepared, from, assumed) : own,
            assumed.Changed ? own : null,
            SlotFinder.Find(assumed.Free, prepared.Busy, from, assumed.ExamDay).Slots);
    }

    /// <summary>What the page of a case shows under the assumptions of an address; null where there is no such case, or it can no longer be read.</summary>
    /// <param name="key">The case.</param>
    /// <param name="query">Gives the text of a field in the address, or null where it has none.</param>
    /// <param name="library">Finds cases.</param>
    /// <param name="changes">Whether to find out what would change the plan, too.</param>
    /// <param name="cancellation">Stops the planning.</param>
    public static async Task<WorkbenchView?> FindAsync(string key, Func<string, string?> query, CaseLibrary library, bool changes, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(library);
        if ((await library.FindAsync(key, cancellation))?.Value is not { } found)
        {
            return null;
        }

        ZonedDateTime from = library.Now(found);
        PreparedCase prepared = library.Prepare(found, from.Date);
        WorkbenchView view = Build(prepared, from, Assumed.Read(prepared, query));
        return changes ? view.WithChanges(prepared, cancellation) : view;
    }

    /// <summary>The same with what would change the plan, which takes several plans to find out.</summary>
    public WorkbenchView WithChanges(PreparedCase prepared, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        return this with
        {
            Report = Report with { Changes = ChangeFinder.Find(Report.Standing, Case.Person.Attempts, Plan, Assumed.Free, prepared.Busy, prepared.Basis.Bank, cancellation) },
        };
    }

    /// <summary>Which of the model's assumptions the plan hangs on.</summary>
    public SensitivityTable Sensitivity(PreparedCase prepared, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        return prepared.Sensitivity(
            From, Assumed.Query, () => SensitivityCalculator.Vary(Report.Standing, Case.Person.Attempts, Plan, Assumed.Free, prepared.Busy, prepared.Basis.Bank, cancellation));
    }

    private static CandidateReport ReportOn(PreparedCase prepared, ZonedDateTime from, Assumed assumed)
    {
        CandidateStanding standing = ReferenceEquals(assumed.Exam, prepared.Case.Exam) ? prepared.Standing : prepared.Standing with { Exam = assumed.Exam };
        return prepared.ReportOn(standing, Planner.Plan(standing, assumed.Free, prepared.Busy, from, assumed.ExamDay, assumed.Policy));
    }
}
