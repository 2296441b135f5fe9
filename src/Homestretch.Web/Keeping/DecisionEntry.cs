using Homestretch.Files.Documents;
using Homestretch.Store;
using Homestretch.Web.Assuming;
using Homestretch.Web.Cases;

using NodaTime;

namespace Homestretch.Web.Keeping;

/// <summary>A decision as it is kept: with the figures of its moment.</summary>
public static class DecisionEntry
{
    /// <summary>Most characters of a decision.</summary>
    public const int MostLength = 1000;

    /// <summary>Whether a text is a decision.</summary>
    public static bool IsText(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length is > 0 and <= MostLength;
    }

    /// <summary>Whether an exam can be moved to a day: between today and half a year from now.</summary>
    public static bool IsDay(LocalDate day, LocalDate today) => day >= today && day <= PreparedCase.LastExamDayFrom(today);

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
