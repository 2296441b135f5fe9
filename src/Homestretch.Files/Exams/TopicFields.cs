using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Yaml;

namespace Homestretch.Files.Exams;

/// <summary>Reads a section's topics and shares its items out among them.</summary>
internal sealed class TopicFields(YamlProblems problems)
{
    // Published percentages are rounded; a sum this near to 100 is rescaled.
    private const double RoundingLow = 99;
    private const double RoundingHigh = 101;
    private const double Exact = 1e-9;

    private readonly Dictionary<string, int> topicLines = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>The topics with their items; empty when anything is wrong with them.</summary>
    /// <param name="section">The section's keys.</param>
    /// <param name="scoredItems">Its scored items; null where they could not be read.</param>
    public ImmutableArray<Topic> Read(MapFields section, int? scoredItems)
    {
        int before = problems.Count;
        if (section.List("topics", required: true, "a list of topics, each with name and weight") is not { } list)
        {
            return [];
        }

        if (list.Items.Count == 0)
        {
            section.Problem("topics", "there is no topic; give at least one with name and weight.");
            return [];
        }

        PublishedPart[] topics = [.. list.Items.Select((node, i) => Part(node, $"topic {i + 1}", isTopic: true)).OfType<PublishedPart>()];
        foreach (PublishedPart topic in topics)
        {
            NoteRepeats(topic);
        }

        bool all = topics.Length == list.Items.Count;
        int line = section.LineOf("topics");
        if (all && scoredItems is { } most && topics.Length > most)
        {
            problems.Add(line, $"{section.Place}, topics: there are {topics.Length} topics for {most} scored items; each topic needs at least one item, so join some or correct scored-items.");
            all = false;
        }

        int[]? counts = all ? ShareOut(topics, scoredItems, section.Place, "topic", line, null) : null;
        for (int i = 0; i < topics.Length && counts is not null; i++)
        {
            if (counts[i] == 0)
            {
                double quota = topics[i].Weight!.Value.Midpoint / topics.Sum(t => t.Weight!.Value.Midpoint) * scoredItems!.Value;
                problems.Add(topics[i].WeightLine, $"{topics[i].Place}, weight: this is {YamlProblems.Show(Math.Round(quota, 2))} of {scoredItems} items, which comes to none; join the topic with another, or give weights in items.");
            }
        }

        ImmutableArray<Topic>.Builder read = ImmutableArray.CreateBuilder<Topic>(topics.Length);
        for (int i = 0; i < topics.Length; i++)
        {
            int? items = counts?[i];
            ImmutableArray<Subtopic> subtopics = Subtopics(topics[i], items is 0 ? null : items);
            if (problems.Count == before && items is { } count)
            {
                read.Add(new Topic(topics[i].Name!, topics[i].Weight!.Value, count, subtopics));
            }
        }

        return problems.Count == before ? read.ToImmutable() : [];
    }

    private static string Figures(IEnumerable<PublishedPart> parts, Func<Weight, double> end)
    {
        double[] figures = [.. parts.Select(p => end(p.Weight!.Value))];
        return string.Join(" + ", figures.Take(12).Select(f => YamlProblems.Show(f))) + (figures.Length > 12 ? " + …" : "");
    }

    private PublishedPart? Part(YamlNode node, string place, bool isTopic)
    {
        string kind = isTopic ? "a topic" : "a subtopic";
        if (node is not YamlMap map)
        {
            string value = node is YamlScalar scalar ? $"{YamlProblems.Show(scalar.Value)} is a single value" : $"this is {node.Kind}";
            problems.Add(node.Line, $"{place}: {value}; give {kind} as name and weight, such as {{name: Cataloguing, weight: 30 %}}.");
            return null;
        }

        string[] keys = isTopic ? ["name", "weight", "subtopics"] : ["name", "weight"];
        MapFields fields = new(map, kind, place, problems, keys);
        string? name = fields.Text("name", required: true, $"the name of the {(isTopic ? "topic" : "subtopic")}");
        if (name is not null)
        {
            fields.Place = $"{(isTopic ? "topic" : "subtopic")} {YamlProblems.Show(name)}";
        }

        Weight? weight = null;
        if (fields.Text("weight", required: isTopic, WeightText.Accepted) is { } text)
        {
            weight = WeightText.Parse(text, out string? problem);
            if (problem is not null)
            {
                fields.Problem("weight", problem);
            }
        }

        List<PublishedPart> subtopics = [];
        if (isTopic && fields.List("subtopics", required: false, "a list of subtopics, each with a name") is { } list)
        {
            if (list.Items.Count == 0)
            {
                fields.Problem("subtopics", "the list is empty; give at least one subtopic, or remove the key.");
            }

            subtopics.AddRange(list.Items.Select((n, i) => Part(n, $"{fields.Place}, subtopic {i + 1}", isTopic: false)).OfType<PublishedPart>());
            NoteRepeatedSubtopics(fields.Place, subtopics);
        }

        return new PublishedPart(name, fields.Place, weight, fields.Has("weight"), fields.LineOf("weight"), fields.Line, subtopics, fields.LineOf("subtopics"));
    }

    private void NoteRepeats(PublishedPart topic)
    {
        if (topic.Name is { } name && !topicLines.TryAdd(name, topic.Line))
        {
            problems.Add(topic.Line, $"{topic.Place}: the name is used twice, first on line {topicLines[name]}; topic names must differ in the whole exam (capital letters do not count).");
        }
    }

    private void NoteRepeatedSubtopics(string place, List<PublishedPart> subtopics)
    {
        Dictionary<string, int> lines = new(StringComparer.OrdinalIgnoreCase);
        foreach (PublishedPart part in subtopics)
        {
            if (part.Name is { } name && !lines.TryAdd(name, part.Line))
            {
                problems.Add(part.Line, $"{part.Place}: the name is used twice in {place}, first on line {lines[name]}; subtopic names must differ within a topic.");
            }
        }
    }

    private ImmutableArray<Subtopic> Subtopics(PublishedPart topic, int? items)
    {
        IReadOnlyList<PublishedPart> parts = topic.Subtopics;
        if (parts.Count == 0)
        {
            return [];
        }

        int[]? counts;
        if (parts.All(p => !p.HasWeight))
        {
            double[] equal = [.. Enumerable.Repeat(1.0, parts.Count)];
            counts = items is { } n ? Apportionment.LargestRemainder(equal, n) : null;
        }
        else if (parts.FirstOrDefault(p => !p.HasWeight) is { } bare)
        {
            problems.Add(bare.Line, $"{bare.Place}: 'weight' is missing; give every subtopic of {topic.Place} a weight, or none of them.");
            return [];
        }
        else
        {
            counts = ShareOut(parts, items, topic.Place, "subtopic", topic.SubtopicsLine, topic.Weight);
        }

        return counts is null || parts.Any(p => p.Name is null) ? [] : [.. parts.Select((p, i) => new Subtopic(p.Name!, p.Weight, counts[i]))];
    }

    // Counts for parts that all carry a weight; null when the weights contradict each other or the items.
    private int[]? ShareOut(IReadOnlyList<PublishedPart> parts, int? items, string whole, string kind, int line, Weight? topicWeight)
    {
        if (parts.Any(p => p.Weight is null))
        {
            return null;
        }

        if (parts.FirstOrDefault(p => p.Weight!.Value.Unit != parts[0].Weight!.Value.Unit) is { } other)
        {
            bool firstInItems = parts[0].Weight!.Value.Unit == WeightUnit.Items;
            problems.Add(other.WeightLine, $"{other.Place}, weight: this is in {(firstInItems ? "percent" : "items")}, but {parts[0].Place} is in {(firstInItems ? "items" : "percent")}; use one unit for all {kind}s of {whole}.");
            return null;
        }

        bool fits = parts[0].Weight!.Value.Unit == WeightUnit.Items
            ? ItemsFit(parts, items, whole, kind, line)
            : PercentagesFit(parts, whole, kind, line, topicWeight);
        return fits && items is { } total ? Apportionment.LargestRemainder([.. parts.Select(p => p.Weight!.Value.Midpoint)], total) : null;
    }

    private bool ItemsFit(IReadOnlyList<PublishedPart> parts, int? items, string whole, string kind, int line)
    {
        if (items is not { } total)
        {
            return false;
        }

        string available = kind == "topic" ? $"scored-items is {total}" : $"the topic has {total} {(total == 1 ? "item" : "items")}";
        PublishedPart[] heavier = [.. parts.Where(p => p.Weight!.Value.Low > total)];
        foreach (PublishedPart part in heavier)
        {
            problems.Add(part.WeightLine, $"{part.Place}, weight: {YamlProblems.Show(part.Weight!.Value.Low)} items are more than {whole} holds ({available}); give at most {total}.");
        }

        double sum = parts.Sum(p => p.Weight!.Value.Low);
        if (heavier.Length == 0 && sum != total)
        {
            problems.Add(line, $"{whole}, {kind}s: the weights sum to {YamlProblems.Show(sum)} items ({Figures(parts, w => w.Low)}), but {available}; the two must be equal.");
        }

        return heavier.Length == 0 && sum == total;
    }

    private bool PercentagesFit(IReadOnlyList<PublishedPart> parts, string whole, string kind, int line, Weight? topicWeight)
    {
        double low = parts.Sum(p => p.Weight!.Value.Low);
        double high = parts.Sum(p => p.Weight!.Value.High);
        if (parts.All(p => p.Weight!.Value.Low == p.Weight!.Value.High))
        {
            if (low >= RoundingLow - Exact && low <= RoundingHigh + Exact)
            {
                return true;
            }

            string hint = topicWeight is { Unit: WeightUnit.Percent } weight && low >= weight.Low - 1 && low <= weight.High + 1
                ? $" They look like percentages of the section; give them as percentages of the topic: {string.Join(", ", parts.Take(12).Select(p => YamlProblems.Show(Math.Round(p.Weight!.Value.Low / low * 100)) + " %"))}."
                : "";
            problems.Add(line, $"{whole}, {kind}s: the percentages sum to {YamlProblems.Show(low)}, not 100 ({Figures(parts, w => w.Low)}); 99 to 101 is accepted as rounding.{hint}");
            return false;
        }

        if (low > 100 + Exact)
        {
            problems.Add(line, $"{whole}, {kind}s: even the lower ends of the ranges sum to {YamlProblems.Show(low)}, above 100 ({Figures(parts, w => w.Low)}); no choice within the ranges gives 100.");
            return false;
        }

        if (high < 100 - Exact)
        {
            problems.Add(line, $"{whole}, {kind}s: even the upper ends of the ranges sum to {YamlProblems.Show(high)}, below 100 ({Figures(parts, w => w.High)}); no choice within the ranges gives 100.");
            return false;
        }

        return true;
    }
}
