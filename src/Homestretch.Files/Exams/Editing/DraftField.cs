using System.Globalization;

namespace Homestretch.Files.Exams.Editing;

/// <summary>Names of the fields of a form for an exam. Sections, topics and subtopics count from 0 in names and from 1 in words.</summary>
public static class DraftField
{
    /// <summary>The exam's name.</summary>
    public const string Name = "exam-name";

    /// <summary>Edition of the blueprint.</summary>
    public const string Edition = "edition";

    /// <summary>Title of the publication.</summary>
    public const string SourceTitle = "source-title";

    /// <summary>Date of the publication.</summary>
    public const string SourceDate = "source-date";

    /// <summary>Place of the publication.</summary>
    public const string SourceWhere = "source-where";

    /// <summary>How the sections decide.</summary>
    public const string Rule = "rule";

    /// <summary>The cut score of all sections together; its parts as <see cref="Cut"/> names them.</summary>
    public const string Total = "total";

    /// <summary>Days to wait.</summary>
    public const string WaitingDays = "waiting-days";

    /// <summary>Attempts in twelve months.</summary>
    public const string AttemptsPerYear = "attempts-per-year";

    /// <summary>Weak below.</summary>
    public const string WeakBelow = "weak-below";

    /// <summary>Strong from.</summary>
    public const string StrongFrom = "strong-from";

    /// <summary>Notes.</summary>
    public const string Notes = "notes";

    /// <summary>All sections.</summary>
    public const string Sections = "sections";

    /// <summary>A field of a section: <c>name</c>, <c>scored</c>, <c>unscored</c>, <c>minutes</c>, <c>options</c>, <c>cut</c> or <c>topics</c>.</summary>
    public static string Section(int section, string what) => string.Create(CultureInfo.InvariantCulture, $"s{section}-{what}");

    /// <summary>A field of a topic: <c>name</c>, <c>weight</c> or <c>subtopics</c>.</summary>
    public static string Topic(int section, int topic, string what) => string.Create(CultureInfo.InvariantCulture, $"s{section}-t{topic}-{what}");

    /// <summary>A field of a subtopic: <c>name</c> or <c>weight</c>.</summary>
    public static string Subtopic(int section, int topic, int subtopic, string what) => string.Create(CultureInfo.InvariantCulture, $"s{section}-t{topic}-p{subtopic}-{what}");

    /// <summary>A field of a cut score: <c>kind</c>, <c>mark</c>, <c>zero</c>, <c>all</c> or <c>table</c>.</summary>
    /// <param name="cut">The cut score's own name: <see cref="Total"/>, or a section's <c>cut</c>.</param>
    /// <param name="what">Which of its fields.</param>
    public static string Cut(string cut, string what) => $"{cut}-{what}";

    /// <summary>Where a field of a section, topic or subtopic stands, in words: "topic 2 of section 1"; empty for the others.</summary>
    public static string Place(string field)
    {
        ArgumentNullException.ThrowIfNull(field);
        string place = "";
        foreach (string part in field.Split('-'))
        {
            string? kind = part.Length < 2 || !part[1..].All(char.IsAsciiDigit) ? null : part[0] switch { 's' => "section", 't' => "topic", 'p' => "subtopic", _ => null };
            if (kind is null)
            {
                break;
            }

            place = string.Create(CultureInfo.InvariantCulture, $"{kind} {int.Parse(part[1..], CultureInfo.InvariantCulture) + 1}{(place.Length > 0 ? " of " + place : "")}");
        }

        return place;
    }
}
