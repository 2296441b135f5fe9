using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Core.Planning.Replanning;
using Homestretch.Files.Documents;
using Homestretch.Files.Yaml;

using NodaTime;

namespace Homestretch.Files.Plans;

/// <summary>Reads an earlier plan from the JSON document that <c>plan --json</c> printed (docs/json.md).</summary>
public static class PlanFile
{
    private const int LongestBlock = 240;
    private const string Document = "the document that 'homestretch plan --json' printed";
    private const string MomentForm = "a time with its offset, such as 2026-11-25T18:30:00+00:00";

    /// <summary>Reads the file at <paramref name="path"/>; a file that is missing or cannot be read is a problem as well.</summary>
    /// <param name="path">The file as the person named it.</param>
    /// <param name="exam">The exam it must be for.</param>
    /// <param name="candidate">The person it must be for; null where that is not known.</param>
    public static ReadResult<EarlierPlan> Read(string path, Exam exam, string? candidate)
    {
        ArgumentNullException.ThrowIfNull(path);
        YamlProblems problems = new(path);
        return problems.ReadBytes() is { } bytes ? Parse(path, bytes, exam, candidate) : ReadResult<EarlierPlan>.Failed(problems.InFileOrder());
    }

    /// <summary>Reads a document that is in memory.</summary>
    /// <param name="fileName">The name used in messages.</param>
    /// <param name="utf8">The document.</param>
    /// <param name="exam">The exam it must be for.</param>
    /// <param name="candidate">The person it must be for; null where that is not known.</param>
    public static ReadResult<EarlierPlan> Parse(string fileName, ReadOnlySpan<byte> utf8, Exam exam, string? candidate)
    {
        ArgumentNullException.ThrowIfNull(fileName);
        ArgumentNullException.ThrowIfNull(exam);
        YamlProblems problems = new(fileName);
        EarlierPlan? plan = JsonText.ReadMap(utf8, Document, problems) is { } map ? ReadPlan(map, exam, candidate, problems) : null;
        return plan is not null && !problems.Any ? ReadResult<EarlierPlan>.Ok(plan) : ReadResult<EarlierPlan>.Failed(problems.InFileOrder());
    }

    private static EarlierPlan? ReadPlan(YamlMap map, Exam exam, string? candidate, YamlProblems problems)
    {
        MapFields top = Fields(map, "", problems);
        if (top.Has("blocks") && !top.Has("calendarDay"))
        {
            top.Problem("blocks", "this plan was printed by an older version of the program, without what a later plan has to know of it; print it again with 'homestretch plan --json'.");
            return null;
        }

        Same(top, "exam", exam.Name, "exam");
        if (candidate is not null)
        {
            Same(top, "candidate", candidate, "person");
        }

        DateTimeZone? zone = Zone(top);
        OffsetDateTime? from = Moment(top, "from");
        LocalDate? examDay = top.Date("examDay", required: true);
        LocalDate? lightFrom = top.Date("lightFrom", required: true);
        LocalDate? calendarDay = top.Date("calendarDay", required: true);
        List<EarlierBlock> blocks = [.. Blocks(top, "blocks", exam, _ => BlockFate.Planned, problems), .. Blocks(top, "earlier", exam, Fate, problems)];
        ImmutableDictionary<string, double> levels = Levels(top, exam, problems);
        RefuseClashes(top, blocks);
        return problems.Any
            ? null
            : new EarlierPlan(from!.Value.InZone(zone!), examDay!.Value, lightFrom!.Value, calendarDay!.Value, [.. blocks], levels);
    }

    // Later versions may add keys, so unknown ones are let through.
    private static MapFields Fields(YamlMap map, string place, YamlProblems problems) => new(map, "a plan", place, problems, [.. map.Entries.Select(e => e.Key.Value)]);

    private static void Same(MapFields top, string key, string wanted, string what)
    {
        string? given = top.Text(key, required: true, $"the name of the {what}");
        if (given is not null && !string.Equals(given, MapFields.Tidy(wanted), StringComparison.OrdinalIgnoreCase))
        {
            top.Problem(key, $"the plan is for {YamlProblems.Show(given)}, not for {YamlProblems.Show(wanted)}; give a plan of the same {what}.");
        }
    }

    private static DateTimeZone? Zone(MapFields top)
    {
        if (top.Text("zone", required: true, "the name of a time zone, such as Europe/London") is not { } text)
        {
            return null;
        }

        if (DateTimeZoneProviders.Tzdb.Ids.Contains(text, StringComparer.Ordinal))
        {
            return DateTimeZoneProviders.Tzdb[text];
        }

        top.Problem("zone", $"{YamlProblems.Show(text)} is not a known time zone; give a name such as Europe/London.");
        return null;
    }

    private static OffsetDateTime? Moment(MapFields fields, string key)
    {
        if (fields.Text(key, required: true, MomentForm) is not { } text)
        {
            return null;
        }

        if (PlanDocument.TimePattern.Parse(text) is { Success: true } moment)
        {
            return moment.Value;
        }

        fields.Problem(key, $"{YamlProblems.Show(text)} is not accepted; give {MomentForm}.");
        return null;
    }

    private static IEnumerable<EarlierBlock> Blocks(MapFields top, string key, Exam exam, Func<MapFields, BlockFate?> fate, YamlProblems problems)
    {
        int number = 0;
        foreach (YamlNode node in top.List(key, required: true, "a list of blocks")?.Items ?? [])
        {
            string place = $"{key}, block {++number}";
            if (node is not YamlMap map)
            {
                problems.Add(node.Line, $"{place}: this is {node.Kind}; give a block with id, start, end, topic and purpose.");
                continue;
            }

            MapFields fields = Fields(map, place, problems);
            string? id = fields.Text("id", required: true, "the block's name");
            OffsetDateTime? start = Moment(fields, "start");
            OffsetDateTime? end = Moment(fields, "end");
            string? topic = Topic(fields, exam);
            BlockPurpose? purpose = Purpose(fields);
            BlockFate? found = fate(fields);
            LocalDate? doneOn = fields.Date("doneOn", required: false);
            if (start is { } s && end is { } e && (e.ToInstant() - s.ToInstant()).TotalMinutes is not (> 0 and <= LongestBlock))
            {
                fields.Problem("end", $"a block lasts from 1 to {LongestBlock} minutes; this one ends {YamlProblems.Show((e.ToInstant() - s.ToInstant()).TotalMinutes)} minutes after its start.");
            }
            else if (id is not null && start is not null && end is not null && topic is not null && purpose is { } what && found is { } state)
            {
                yield return new EarlierBlock(id, new Interval(start.Value.ToInstant(), end.Value.ToInstant()), topic, what, state) { DoneOn = doneOn };
            }
        }
    }

    private static string? Topic(MapFields fields, Exam exam)
    {
        if (fields.Text("topic", required: true, "a topic of the exam") is not { } text)
        {
            return null;
        }

        string? known = exam.Topics.Select(t => t.Name).FirstOrDefault(t => string.Equals(MapFields.Tidy(t), text, StringComparison.Ordinal));
        if (known is null)
        {
            fields.Problem("topic", $"the exam has no topic {YamlProblems.Show(text)}; its topics are {string.Join(", ", exam.Topics.Select(t => t.Name))}.");
        }

        return known;
    }

    private static BlockPurpose? Purpose(MapFields fields)
        => Choice(fields, "purpose", Enum.GetValues<BlockPurpose>(), Words.Of);

    private static BlockFate? Fate(MapFields fields)
        => Choice(fields, "fate", [BlockFate.Done, BlockFate.Missed, BlockFate.Dropped], Words.Of);

    private static T? Choice<T>(MapFields fields, string key, T[] choices, Func<T, string> word)
        where T : struct
    {
        string accepted = string.Join(", ", choices.Select(word));
        if (fields.Text(key, required: true, accepted) is not { } text)
        {
            return null;
        }

        foreach (T choice in choices)
        {
            if (word(choice) == text)
            {
                return choice;
            }
        }

        fields.Problem(key, $"{YamlProblems.Show(text)} is not accepted; give one of {accepted}.");
        return null;
    }

    private static ImmutableDictionary<string, double> Levels(MapFields top, Exam exam, YamlProblems problems)
    {
        Dictionary<string, double> levels = [];
        int number = 0;
        foreach (YamlNode node in top.List("levels", required: true, "a list of topics with their levels")?.Items ?? [])
        {
            string place = $"levels, topic {++number}";
            if (node is not YamlMap map)
            {
                problems.Add(node.Line, $"{place}: this is {node.Kind}; give a topic with its mean.");
                continue;
            }

            MapFields fields = Fields(map, place, problems);
            if (Topic(fields, exam) is { } topic && Share(fields, "mean") is { } mean)
            {
                levels[topic] = mean;
            }
        }

        return levels.ToImmutableDictionary(StringComparer.Ordinal);
    }

    private static double? Share(MapFields fields, string key)
    {
        const string accepted = "a share from 0 to 1";
        if (fields.Text(key, required: true, accepted) is not { } text)
        {
            return null;
        }

        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double share) && share is >= 0 and <= 1)
        {
            return share;
        }

        fields.Problem(key, $"{YamlProblems.Show(text)} is not accepted; give {accepted}.");
        return null;
    }

    // Names must be distinct, and blocks that are still planned cannot overlap.
    private static void RefuseClashes(MapFields top, List<EarlierBlock> blocks)
    {
        foreach (IGrouping<string, EarlierBlock> twice in blocks.GroupBy(b => b.Id).Where(g => g.Count() > 1))
        {
            top.Problem("blocks", $"the name {YamlProblems.Show(twice.Key)} is given to {twice.Count()} blocks; each needs one of its own.");
        }

        EarlierBlock[] planned = [.. blocks.Where(b => b.Fate == BlockFate.Planned).OrderBy(b => b.Time.Start)];
        foreach ((EarlierBlock one, EarlierBlock next) in planned.Zip(planned.Skip(1)).Where(p => p.Second.Time.Start < p.First.Time.End))
        {
            top.Problem("blocks", $"the blocks {YamlProblems.Show(one.Id)} and {YamlProblems.Show(next.Id)} overlap.");
        }
    }
}
