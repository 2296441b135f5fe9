using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Yaml;

using NodaTime;

namespace Homestretch.Files.Exams;

/// <summary>Reads an exam file: the blueprint and rules of one exam, in YAML as described in docs/exam-file.md.</summary>
public static class ExamFile
{
    /// <summary>More items than this, in a section or in all, are taken for a mistake.</summary>
    internal const int MostItems = 2000;

    private const int MostMinutes = 1440;
    private const int MostOptions = 20;
    private const int LongestWait = 3650;
    private const int MostAttempts = 365;
    private const int LongestNotes = 2000;

    private static readonly Dictionary<string, OverallRule> Rules = new(StringComparer.OrdinalIgnoreCase)
    {
        ["every section"] = OverallRule.EverySection,
        ["total"] = OverallRule.Total,
        ["total with section minimums"] = OverallRule.TotalWithSectionMinimums,
    };

    /// <summary>A rule as the file writes it.</summary>
    internal static string RuleText(OverallRule rule) => Rules.First(r => r.Value == rule).Key;

    private static string RulesAccepted => string.Join(", ", Rules.Keys.Select(r => $"'{r}'"));

    /// <summary>Reads the file at <paramref name="path"/>; a file that is missing or cannot be read is a problem as well.</summary>
    public static ReadResult<Exam> Read(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        YamlProblems problems = new(path);
        return Utf8File.Read(problems) is { } text ? Parse(path, text) : ReadResult<Exam>.Failed(problems.InFileOrder());
    }

    /// <summary>Reads the text of an exam file.</summary>
    /// <param name="fileName">The file's name, for messages.</param>
    /// <param name="text">All of it.</param>
    public static ReadResult<Exam> Parse(string fileName, string text)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(text);
        YamlProblems problems = new(fileName);
        Exam? exam = YamlText.ReadMap(text, "exam: Name of the exam", problems) is { } map ? ReadExam(map, problems) : null;
        return exam is not null && !problems.Any ? ReadResult<Exam>.Ok(exam) : ReadResult<Exam>.Failed(problems.InFileOrder());
    }

    private static Exam? ReadExam(YamlMap map, YamlProblems problems)
    {
        MapFields top = new(map, "an exam file", "", problems, "exam", "edition", "source", "sections", "rule", "total", "retake", "bands", "notes");
        string? name = top.Text("exam", required: true, "the name of the exam");
        string? edition = top.Text("edition", required: false, "the edition of the blueprint, such as 2026");
        FigureSource? source = ReadSource(top, problems);
        List<PublishedSection> sections = ReadSections(top, problems, out bool complete);
        int? scored = complete && sections.All(s => s.ScoredItems is not null) ? sections.Sum(s => s.ScoredItems!.Value) : null;
        if (scored > MostItems)
        {
            problems.Add(top.LineOf("sections"), $"sections: {scored} scored items in all are out of range; give at most {MostItems}.");
        }

        CutScore? total = CutScoreFields.Read(top, "total", scored, problems);
        OverallRule? rule = ReadRule(top, sections, problems);
        RetakeRule? retake = ReadRetake(top, problems);
        BandEdges bands = ReadBands(top, problems);
        string? notes = top.LongText("notes", LongestNotes);
        return problems.Any
            ? null
            : new Exam(
                name!,
                edition,
                source,
                [.. sections.Select(s => new Section(s.Name!, s.ScoredItems!.Value, s.UnscoredItems, s.Minutes, s.Options!.Value, s.Cut, s.Topics))],
                rule!.Value,
                total,
                retake,
                bands)
            {
                Notes = notes,
            };
    }

    private static FigureSource? ReadSource(MapFields top, YamlProblems problems)
    {
        if (top.Map("source", required: false, "title and date of the publication, such as {title: Candidate handbook, date: 2026-02-01}") is not { } map)
        {
            return null;
        }

        MapFields fields = new(map, "a source", "source", problems, "title", "date", "where");
        string? title = fields.Text("title", required: true, "the title of the handbook or page");
        LocalDate? date = fields.Date("date", required: true);
        string? where = fields.Text("where", required: false, "an address or a place");
        return title is null || date is null ? null : new FigureSource(title, date.Value, where);
    }

    private static List<PublishedSection> ReadSections(MapFields top, YamlProblems problems, out bool complete)
    {
        complete = false;
        List<PublishedSection> sections = [];
        if (top.List("sections", required: true, "a list of sections, at least one") is not { } list)
        {
            return sections;
        }

        if (list.Items.Count == 0)
        {
            top.Problem("sections", "there is no section; give at least one.");
        }

        TopicFields topics = new(problems);
        Dictionary<string, int> lines = new(StringComparer.OrdinalIgnoreCase);
        int number = 0;
        foreach (YamlNode node in list.Items)
        {
            number++;
            if (node is not YamlMap map)
            {
                problems.Add(node.Line, $"section {number}: this is {node.Kind}; give name, scored-items, options and topics.");
                continue;
            }

            PublishedSection section = ReadSection(map, number, topics, problems);
            sections.Add(section);
            if (section.Name is { } name && !lines.TryAdd(name, section.Fields.Line))
            {
                problems.Add(section.Fields.Line, $"{section.Fields.Place}: the name is used twice, first on line {lines[name]}; section names must differ (capital letters do not count).");
            }
        }

        complete = sections.Count > 0 && sections.Count == list.Items.Count;
        return sections;
    }

    private static PublishedSection ReadSection(YamlMap map, int number, TopicFields topics, YamlProblems problems)
    {
        MapFields fields = new(map, "a section", $"section {number}", problems, "name", "scored-items", "unscored-items", "minutes", "options", "pass", "topics");
        string? name = fields.Text("name", required: true, "the name of the section");
        if (name is not null)
        {
            fields.Place = $"section {YamlProblems.Show(name)}";
        }

        int? scored = fields.Whole("scored-items", 1, MostItems, required: true, "items");
        int unscored = fields.Whole("unscored-items", 0, MostItems, required: false, "items") ?? 0;
        int? minutes = fields.Whole("minutes", 1, MostMinutes, required: false, "minutes");
        int? options = ReadOptions(fields);
        CutScore? cut = CutScoreFields.Read(fields, "pass", scored, problems);
        return new PublishedSection(name, scored, unscored, minutes, options, cut, topics.Read(fields, scored), fields);
    }

    private static int? ReadOptions(MapFields fields)
    {
        string accepted = $"the options to choose from per item, 2 to {MostOptions}, or 'none' where answers are written";
        if (fields.Text("options", required: true, accepted) is not { } text)
        {
            return null;
        }

        if (text.Equals("none", StringComparison.OrdinalIgnoreCase))
        {
            return 0;
        }

        if (int.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out int options) && options is 0 or (>= 2 and <= MostOptions))
        {
            return options;
        }

        string why = text == "1" ? "with one option there is nothing to choose" : $"{YamlProblems.Show(text)} is not accepted";
        fields.Problem("options", $"{why}; give {accepted}.");
        return null;
    }

    private static OverallRule? ReadRule(MapFields top, List<PublishedSection> sections, YamlProblems problems)
    {
        OverallRule rule;
        if (!top.Has("rule") && sections.Count <= 1 && !top.Has("total"))
        {
            rule = OverallRule.EverySection;
        }
        else if (top.Text("rule", required: true, $"one of {RulesAccepted}") is not { } text)
        {
            return null;
        }
        else if (!Rules.TryGetValue(text, out rule))
        {
            string suggestion = NearestName.Suggest(text, Rules.Keys) is { } near ? $"did you mean '{near}'? Accepted are" : "give one of";
            top.Problem("rule", $"{YamlProblems.Show(text)} is not a rule; {suggestion} {RulesAccepted}.");
            return null;
        }

        string named = RuleText(rule);
        if (rule == OverallRule.EverySection && top.Has("total"))
        {
            problems.Add(top.LineOf("total"), $"total: the rule '{named}' does not use it; remove it, or give the rule 'total' or 'total with section minimums'.");
        }

        if (rule != OverallRule.EverySection && !top.Has("total"))
        {
            problems.Add(top.LineOf("rule"), $"'total' is missing; the rule '{named}' needs a cut score for the whole exam, such as total: {{percent: 65}}.");
        }

        foreach (PublishedSection section in sections)
        {
            if (rule == OverallRule.EverySection && !section.Fields.Has("pass"))
            {
                problems.Add(section.Fields.Line, $"{section.Fields.Place}: 'pass' is missing; the rule '{named}' needs a cut score for each section, such as pass: {{percent: 65}}.");
            }

            if (rule == OverallRule.Total && section.Fields.Has("pass"))
            {
                problems.Add(section.Fields.LineOf("pass"), $"{section.Fields.Place}, pass: the rule '{named}' does not use it; remove it, or give the rule 'total with section minimums'.");
            }
        }

        if (rule == OverallRule.TotalWithSectionMinimums && sections.Count > 0 && sections.All(s => !s.Fields.Has("pass")))
        {
            problems.Add(top.LineOf("rule"), $"rule: '{named}' is given, but no section has a 'pass'; give at least one, or the rule 'total'.");
        }

        return rule;
    }

    private static RetakeRule? ReadRetake(MapFields top, YamlProblems problems)
    {
        if (top.Map("retake", required: false, "waiting-days and, if published, attempts-per-year") is not { } map)
        {
            return null;
        }

        MapFields fields = new(map, "a retake rule", "retake", problems, "waiting-days", "attempts-per-year");
        int? days = fields.Whole("waiting-days", 0, LongestWait, required: true, "days");
        int? attempts = fields.Whole("attempts-per-year", 1, MostAttempts, required: false, "attempts");
        return days is { } wait ? new RetakeRule(wait, attempts) : null;
    }

    private static BandEdges ReadBands(MapFields top, YamlProblems problems)
    {
        if (top.Map("bands", required: false, "weak-below and strong-from as percentages, such as {weak-below: 50, strong-from: 67.5}") is not { } map)
        {
            return BandEdges.Default;
        }

        MapFields fields = new(map, "the bands", "bands", problems, "weak-below", "strong-from");
        double? weak = fields.Number("weak-below", 1, 99, required: true, "a percentage from 1 to 99, such as 50");
        double? strong = fields.Number("strong-from", 1, 99, required: true, "a percentage from 1 to 99, such as 67.5");
        if (weak is not { } low || strong is not { } high)
        {
            return BandEdges.Default;
        }

        if (low >= high)
        {
            fields.Problem("strong-from", $"{YamlProblems.Show(high)} is not above weak-below, which is {YamlProblems.Show(low)}; strong must begin above weak.");
            return BandEdges.Default;
        }

        return new BandEdges(low / 100, high / 100);
    }
}
