using Homestretch.Files.Documents;
using Homestretch.Store;
using Homestretch.Web.Assuming;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Keeping;

/// <summary>A decision as it is kept: with the figures of its moment.</summary>
public static class DecisionEntry
{
    /// <summary>The decision.</summary>
    /// <param name="prepared">The case.</param>
    /// <param name="from">The moment from which it is planned.</param>
    /// <param name="text">What was decided.</param>
    /// <param name="examDay">The exam day from now on; null where the decision leaves it alone.</param>
    /// <param name="now">When.</param>
    public static Decision Of(PreparedCase prepared, ZonedDateTime from, string text, LocalDate? examDay, Instant now)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        WorkbenchView view = WorkbenchView.Build(prepared, from, Assumed.Read(prepared, _ => null));
        return new()
        {
            At = now,
            Origin = Origin.Coach,
            Text = text,
            ExamDay = examDay == prepared.Case.ExamDay ? null : examDay,
            Figures = DocumentJson.Write(PlanDocument.Of(view.Report)),
        };
    }
}
