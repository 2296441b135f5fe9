using System.Collections.Immutable;

using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Changes;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Core.Planning.Sensitivity;
using Homestretch.Core.Standing;
using Homestretch.Files;
using Homestretch.Files.Documents;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Assuming;

/// <summary>Everything that a case's page shows.</summary>
/// <param name="Prepared">The case with its standing.</param>
/// <param name="From">The moment from which it is planned.</param>
/// <param name="Assumed">What the person assumes.</param>
/// <param name="Report">The report under these assumptions, with a plan.</param>
/// <param name="Own">The report under the case's own figures, to compare with; null where nothing was changed.</param>
/// <param name="Slots">The free time that the plan could use.</param>
public sealed record WorkbenchView(
    PreparedCase Prepared, ZonedDateTime From, Assumed Assumed, CandidateReport Report, CandidateReport? Own, ImmutableArray<Slot> Slots)
{
    /// <summary>The case.</summary>
    public ReadCase Case => Prepared.Case;

    /// <summary>The plan in <see cref="Report"/>.</summary>
    public StudyPlan Plan => Report.Plan ?? throw new InvalidOperationException("A workbench always has a plan.");

    /// <summary>Computes what a page shows. The standing is taken as prepared, so that a changed assumption costs a forecast and a plan only.</summary>
    /// <param name="prepared">The case.</param>
    /// <param name="from">The moment from which it is planned.</param>
    /// <param name="assumed">What the person assumes.</param>
    /// <param name="onward">What the optimised plan goes on from; null where it is made from scratch.</param>
    public static WorkbenchView Build(PreparedCase prepared, ZonedDateTime from, Assumed assumed, Onward? onward = null)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        ArgumentNullException.ThrowIfNull(assumed);
        CandidateReport own = prepared.OwnReport(
            from,
            assumed.Policy,
            onward?.Earlier,
            () => ReportOn(prepared, from, Assumed.Read(prepared, name => name == Assumed.PolicyField ? Words.Of(assumed.Policy) : null), onward));
        return new(
            prepared,
            from,
            assumed,
            assumed.Changed ? ReportOn(prepared, from, assumed, onward) : own,
            assumed.Changed ? own : null,
            SlotFinder.Find(assumed.Free, prepared.Busy, from, assumed.ExamDay).Slots);
    }

    /// <summary>The same with what would change the plan, which takes several plans to find out.</summary>
    public WorkbenchView WithChanges(CancellationToken cancellation) => this with
    {
        Report = Report with { Changes = ChangeFinder.Find(Report.Standing, Case.Person.Attempts, Plan, Assumed.Free, Prepared.Busy, Prepared.Basis.Bank, cancellation) },
    };

    /// <summary>Which of the model's assumptions the plan hangs on.</summary>
    public SensitivityTable Sensitivity(CancellationToken cancellation) => Prepared.Sensitivity(
        From, Assumed.Query, () => SensitivityCalculator.Vary(Report.Standing, Case.Person.Attempts, Plan, Assumed.Free, Prepared.Busy, Prepared.Basis.Bank, cancellation));

    private static CandidateReport ReportOn(PreparedCase prepared, ZonedDateTime from, Assumed assumed, Onward? onward)
    {
        CandidateStanding standing = ReferenceEquals(assumed.Exam, prepared.Case.Exam) ? prepared.Standing : prepared.Standing with { Exam = assumed.Exam };
        return prepared.ReportOn(standing, () => onward is not null && assumed.Policy == Policy.Optimised
            ? Replanner.Plan(standing, assumed.Free, onward.Busy, from, assumed.ExamDay, onward.Earlier)
            : Planner.Plan(standing, assumed.Free, prepared.Busy, from, assumed.ExamDay, assumed.Policy));
    }
}
