using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Resources;
using Homestretch.Files.Evidences;
using Homestretch.Files.Sheets;

using NodaTime;

namespace Homestretch.Files.Resources;

/// <summary>Reads catalogues of resources: sheets (CSV or .xlsx) described in docs/resources.md.</summary>
public static class ResourceFile
{
    /// <summary>More minutes on one topic are taken for a slip: 200 hours.</summary>
    public const int MostMinutes = 12_000;

    private const string KindsAccepted = "write teaches, practice items, practice exam or reference";

    private static readonly SheetColumns<ResourceColumn> _columns = new(
        "The first line must hold the names of the columns: title, kind, topics and, if you like, minutes, edition and where.",
        (ResourceColumn.Title, ["title", "resource", "name"]),
        (ResourceColumn.Kind, ["kind", "type"]),
        (ResourceColumn.Topics, ["topics", "topic"]),
        (ResourceColumn.Minutes, ["minutes", "min", "mins"]),
        (ResourceColumn.Edition, ["edition", "date", "year"]),
        (ResourceColumn.Where, ["where", "place", "address"]))
    {
        Needed = [ResourceColumn.Title, ResourceColumn.Kind, ResourceColumn.Topics],
    };

    private static readonly Dictionary<string, ResourceKind> _kinds = new(StringComparer.OrdinalIgnoreCase)
    {
        ["teaches"] = ResourceKind.Teaches,
        ["practice items"] = ResourceKind.PracticeItems,
        ["practice exam"] = ResourceKind.PracticeExam,
        ["full practice exam"] = ResourceKind.PracticeExam,
        ["reference"] = ResourceKind.Reference,
    };

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file as the person named it.</param>
    /// <param name="exam">The exam whose topics the resources are about.</param>
    public static ReadResult<ResourceCatalogue> Read(string path, Exam exam)
    {
        ProblemList problems = new();
        return ParseAll(SheetReader.Open([path], problems), exam, problems);
    }

    /// <summary>Reads a file that is in memory.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="bytes">CSV in any encoding that spreadsheets write, or .xlsx.</param>
    /// <param name="exam">The exam whose topics the resources are about.</param>
    public static ReadResult<ResourceCatalogue> Parse(string fileName, ReadOnlyMemory<byte> bytes, Exam exam) => ParseAll([(fileName, bytes)], exam, new ProblemList());

    private static ReadResult<ResourceCatalogue> ParseAll(IReadOnlyList<(string FileName, ReadOnlyMemory<byte> Bytes)> files, Exam exam, ProblemList problems)
    {
        ArgumentNullException.ThrowIfNull(exam);
        TopicNames names = new(exam);
        List<StudyResource> resources = [];
        Dictionary<(string, ResourceKind, string), RowPlace> places = [];
        SheetReader.ReadAll(files, _columns, problems, row =>
        {
            if (ReadRow(row, exam, names) is not { } resource)
            {
                return;
            }

            (string, ResourceKind, string) key = (resource.Title.ToUpperInvariant(), resource.Kind, $"{string.Join('\n', resource.Topics)}\n{resource.Where}");
            if (!places.TryAdd(key, row.Place))
            {
                row.Refuse($"'{Cell.Show(resource.Title)}' stands {places[key].Seen(row.Place)} already, with the same kind, topics and place; leave one out.");
                return;
            }

            resources.Add(resource);
        });
        return problems.IsEmpty ? ReadResult<ResourceCatalogue>.Ok(new([.. resources])) : ReadResult<ResourceCatalogue>.Failed(problems.InOrder());
    }

    private static StudyResource? ReadRow(SheetRow<ResourceColumn> row, Exam exam, TopicNames names)
    {
        string? title = row.Needed(ResourceColumn.Title, "write the resource's title");
        ResourceKind? kind = null;
        if (row.Needed(ResourceColumn.Kind, KindsAccepted) is { } kindText)
        {
            if (_kinds.TryGetValue(kindText, out ResourceKind known))
            {
                kind = known;
            }
            else
            {
                row.Refuse($"column 'kind': '{Cell.Show(kindText)}' is no kind of resource; {KindsAccepted}.");
            }
        }

        ImmutableArray<string>? topics = Topics(row, exam, names);
        int? minutes = null;
        bool sound = true;
        if (row[ResourceColumn.Minutes] is { Length: > 0 } minutesText)
        {
            if (Cell.TryWhole(minutesText, out int whole) && whole is > 0 and <= MostMinutes)
            {
                minutes = whole;
            }
            else
            {
                row.Refuse($"column 'minutes': {Cell.NotNumber(minutesText)} write how many minutes it takes on each of its topics, a whole number from 1 to {MostMinutes}, or leave it empty.");
                sound = false;
            }
        }

        LocalDate? edition = null;
        if (row[ResourceColumn.Edition] is { Length: > 0 } editionText)
        {
            edition = Edition(editionText);
            if (edition is null)
            {
                row.Refuse($"column 'edition': '{Cell.Show(editionText)}' is no year or date from {SheetDate.EarliestYear} to {SheetDate.LatestYear}; write 2026, 2026-03 or 2026-03-15, or leave it empty.");
                sound = false;
            }
        }

        return title is not null && kind is { } what && topics is { } about && sound
            ? new StudyResource(title, what, about, minutes, edition, row.Optional(ResourceColumn.Where))
            : null;
    }

    private static ImmutableArray<string>? Topics(SheetRow<ResourceColumn> row, Exam exam, TopicNames names)
    {
        if (row.Needed(ResourceColumn.Topics, "write the exam's topics it is about, with semicolons between, or 'all'") is not { } text)
        {
            return null;
        }

        if (string.Equals(text, "all", StringComparison.OrdinalIgnoreCase))
        {
            return [.. exam.Topics.Select(t => t.Name)];
        }

        List<string> topics = [];
        bool sound = true;
        foreach (string name in text.Split(';', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            if (names.Find(name, "", out string problem) is { } found)
            {
                topics.Add(found.Topic.Name);
            }
            else
            {
                row.Refuse(problem);
                sound = false;
            }
        }

        return sound ? [.. topics.Distinct()] : null;
    }

    // A year or month means its last day, so that an edition is called outdated only where it surely is.
    private static LocalDate? Edition(string text)
    {
        string[] parts = text.Split('-');
        if (parts.Length <= 2 && parts[0].Length == 4 && int.TryParse(parts[0], NumberStyles.None, CultureInfo.InvariantCulture, out int year) && year is >= SheetDate.EarliestYear and <= SheetDate.LatestYear)
        {
            return parts.Length == 1 ? new LocalDate(year, 12, 31)
                : int.TryParse(parts[1], NumberStyles.None, CultureInfo.InvariantCulture, out int month) && month is >= 1 and <= 12 ? new LocalDate(year, month, CalendarSystem.Iso.GetDaysInMonth(year, month))
                : null;
        }

        return SheetDate.Parse(text, out _);
    }
}
