using Homestretch.Files.Documents;
using Homestretch.Store;
using Homestretch.Web.Assuming;

using NodaTime;

namespace Homestretch.Web.Keeping;

/// <summary>A decision as it is kept: with the figures of its moment.</summary>
public static class DecisionEntry
{
    /// <summary>The decision.</summary>
    /// <param name="view">The case as it is, nothing assumed.</param>
    /// <param name="text">What was decided.</param>
    /// <param name="examDay">The exam day from now on; null where the decision leaves it alone.</param>
    /// <param name="now">When.</param>
    public static Decision Of(WorkbenchView view, string text, LocalDate? examDay, Instant now)
    {
        ArgumentNullException.ThrowIfNull(view);
        return new()
        {
            At = now,
            Origin = Origin.Coach,
            Text = text,
            ExamDay = examDay == view.Case.ExamDay ? null : examDay,
            Figures = DocumentJson.Write(PlanDocument.Of(view.Report)),
        };
    }
}
