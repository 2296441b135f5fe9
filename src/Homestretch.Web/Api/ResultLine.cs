using Homestretch.Store;

using NodaTime.Text;

namespace Homestretch.Web.Api;

/// <summary>An official result that is kept. What the report says of topics is evidence of kind <c>official</c>.</summary>
/// <param name="Date">The day of the exam, ISO 8601.</param>
/// <param name="Passed">Whether it was passed.</param>
/// <param name="Score">The score as the report gives it; null where it gives none.</param>
public sealed record ResultLine(string Date, bool Passed, string? Score)
{
    /// <summary>The fields of a kept result.</summary>
    public static ResultLine Of(OfficialResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new(LocalDatePattern.Iso.Format(result.Date), result.Passed, result.Score.Length == 0 ? null : result.Score);
    }
}
