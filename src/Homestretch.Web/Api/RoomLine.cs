using System.Collections.Immutable;

using Homestretch.Core.Planning.Calendar;
using Homestretch.Web.Importing;

using NodaTime.Text;

namespace Homestretch.Web.Api;

/// <summary>A row of a candidates sheet as it was understood.</summary>
/// <param name="Line">Its line in the sheet, from 1.</param>
/// <param name="Candidate">The person as the evidence spells the name, or as the sheet does where the evidence names no such person; empty where there is no name that can be used.</param>
/// <param name="ExamDay">The day of the exam, ISO 8601; null where it could not be read.</param>
/// <param name="Zone">The IANA time zone; null where the free time could not be read.</param>
/// <param name="MinutesPerWeek">Minutes of free time in an ordinary week; null where it could not be read.</param>
/// <param name="Attempts">Tests found in the evidence.</param>
/// <param name="Items">Items those tests rest on.</param>
/// <param name="Ready">Whether the person can be imported.</param>
/// <param name="Here">Whether the person has a case for this exam already.</param>
/// <param name="Errors">Everything that keeps the row from being imported; empty where it can be.</param>
public sealed record RoomLine(
    int Line,
    string Candidate,
    string? ExamDay,
    string? Zone,
    int? MinutesPerWeek,
    int Attempts,
    int Items,
    bool Ready,
    bool Here,
    ImmutableArray<ApiError> Errors)
{
    /// <summary>The fields of a row of a preview.</summary>
    public static RoomLine Of(RoomPerson person)
    {
        ArgumentNullException.ThrowIfNull(person);
        return new(
            person.Row.Line,
            person.Candidate,
            person.Row.ExamDay is { } day ? LocalDatePattern.Iso.Format(day) : null,
            person.Row.Free?.Zone.Id,
            person.Row.Free is { } free ? FreeTimeScaling.WeeklyMinutes(free) : null,
            person.Attempts,
            person.Items,
            person.Ready,
            person.Here,
            [.. ErrorsOf(person)]);
    }

    /// <summary>Everything that keeps a row from being imported.</summary>
    public static IEnumerable<ApiError> ErrorsOf(RoomPerson person)
    {
        ArgumentNullException.ThrowIfNull(person);
        return ApiProblem.Errors(person.HereProblem is { } here ? person.Problems.Append(here) : person.Problems);
    }
}
