using Homestretch.Files.Calendars;
using Homestretch.Files.Documents;
using Homestretch.Files.Pictures;

using NodaTime;

namespace Homestretch.Web.Candidates;

/// <summary>A block of a kept plan.</summary>
/// <param name="Fields">What the plan says of it.</param>
/// <param name="Start">Start, with the offset of the person's zone.</param>
/// <param name="End">End, with the offset of the person's zone.</param>
public sealed record KeptBlock(BlockFields Fields, OffsetDateTime Start, OffsetDateTime End)
{
    /// <summary>The block in a plan document.</summary>
    public static KeptBlock Of(BlockFields fields)
    {
        ArgumentNullException.ThrowIfNull(fields);
        return new(fields, PlanDocument.Time(fields.Start), PlanDocument.Time(fields.End));
    }

    /// <summary>"18:30–19:10".</summary>
    public string Span => Dates.Time(Start.TimeOfDay) + "–" + Dates.Time(End.TimeOfDay);

    /// <summary>What to do in it, as a short order.</summary>
    public string Goal => Fields.Purpose switch
    {
        "learn" => "Learn from material that teaches: understand it well enough to explain it.",
        "practise" => "Practise on items, and go over every answer, right or wrong.",
        "quiz" => "A short quiz without help. Write down how it went.",
        _ => "Read over what you know. Nothing new.",
    };

    /// <summary>The purpose as a heading says it.</summary>
    public string Purpose => PlanCalendar.InWords(Fields.Purpose);
}
