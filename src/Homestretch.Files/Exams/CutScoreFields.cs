using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Yaml;

namespace Homestretch.Files.Exams;

/// <summary>Reads a cut score: correct answers, a percentage, or a mark on a reporting scale.</summary>
internal static class CutScoreFields
{
    private const double FarthestScaled = 1_000_000;

    private const string Accepted = "one of {correct: 49}, {percent: 65}, {scaled: {at-least: 500, at-zero: 200, at-all: 800}} or {scaled: {at-least: 500, table: [[0, 200], [49, 500], [75, 800]]}}";

    private static readonly string[] Forms = ["correct", "percent", "scaled"];

    /// <summary>The cut score under <paramref name="key"/>, or null where it is absent or wrong.</summary>
    /// <param name="parent">The group that holds the key.</param>
    /// <param name="key">"pass" or "total".</param>
    /// <param name="items">Scored items it is counted on; null where they are not known.</param>
    /// <param name="problems">Takes what is wrong.</param>
    public static CutScore? Read(MapFields parent, string key, int? items, YamlProblems problems)
    {
        if (parent.Map(key, required: false, Accepted) is not { } map)
        {
            return null;
        }

        string place = parent.Place.Length == 0 ? key : $"{parent.Place}, {key}";
        MapFields fields = new(map, "a cut score", place, problems, Forms);
        string[] given = [.. Forms.Where(fields.Has)];
        if (given.Length != 1)
        {
            string what = given.Length == 0 ? "there is no cut score here" : $"{string.Join(" and ", given)} are both given";
            problems.Add(given.Length == 0 ? parent.LineOf(key) : fields.LineOf(given[1]), $"{place}: {what}; give {Accepted}.");
            return null;
        }

        return given[0] switch
        {
            "correct" => Correct(fields, items),
            "percent" => Percent(fields),
            _ => Scaled(fields, place, items, problems),
        };
    }

    private static CorrectCut? Correct(MapFields fields, int? items)
    {
        if (fields.Whole("correct", 1, ExamFile.MostItems, required: true, "correct answers") is not { } correct)
        {
            return null;
        }

        if (correct > items)
        {
            fields.Problem("correct", $"{correct} is more than the {items} scored items; give 1 to {items}.");
            return null;
        }

        return new CorrectCut(correct);
    }

    private static PercentCut? Percent(MapFields fields)
    {
        const string accepted = "a percentage of the scored items from 1 to 100, such as 65";
        if (fields.Text("percent", required: true, accepted) is not { } text)
        {
            return null;
        }

        if (MapFields.ParseNumber(text.TrimEnd('%').TrimEnd()) is not { } percent)
        {
            fields.Problem("percent", $"{YamlProblems.Show(text)} is not a number; give {accepted}.");
            return null;
        }

        if (percent is < 1 or > 100)
        {
            string meant = percent is > 0 and < 1 ? $" (did you mean {YamlProblems.Show(percent * 100)}?)" : "";
            fields.Problem("percent", $"{YamlProblems.Show(text)} is out of range{meant}; give {accepted}.");
            return null;
        }

        return new PercentCut(percent);
    }

    private static CutScore? Scaled(MapFields parent, string place, int? items, YamlProblems problems)
    {
        const string accepted = "at-least with either at-zero and at-all, or a table";
        if (parent.Map("scaled", required: true, accepted) is not { } map)
        {
            return null;
        }

        MapFields fields = new(map, "a scaled cut score", $"{place}, scaled", problems, "at-least", "at-zero", "at-all", "table");
        double? atLeast = fields.Number("at-least", -FarthestScaled, FarthestScaled, required: true, "the scaled score needed, such as 500");
        bool line = fields.Has("at-zero") || fields.Has("at-all");
        if (fields.Has("table") == line)
        {
            string what = line ? "a table and a line (at-zero, at-all) are both given" : "the scale is missing";
            problems.Add(fields.LineOf("table"), $"{place}, scaled: {what}; give {accepted}.");
            return null;
        }

        return line ? Line(fields, atLeast) : Table(fields, atLeast, items, problems);
    }

    private static ScaledLineCut? Line(MapFields fields, double? atLeast)
    {
        double? atZero = fields.Number("at-zero", -FarthestScaled, FarthestScaled, required: true, "the scaled score for no correct answer, such as 200");
        double? atAll = fields.Number("at-all", -FarthestScaled, FarthestScaled, required: true, "the scaled score for all answers correct, such as 800");
        if (atZero is not { } zero || atAll is not { } all)
        {
            return null;
        }

        if (all <= zero)
        {
            fields.Problem("at-all", $"{YamlProblems.Show(all)} is not above at-zero, which is {YamlProblems.Show(zero)}; more correct answers must earn a higher scaled score.");
            return null;
        }

        if (atLeast is not { } mark)
        {
            return null;
        }

        if (mark <= zero || mark > all)
        {
            fields.Problem("at-least", $"{YamlProblems.Show(mark)} lies outside the scale; give a mark above at-zero ({YamlProblems.Show(zero)}) and at most at-all ({YamlProblems.Show(all)}).");
            return null;
        }

        return new ScaledLineCut(mark, zero, all);
    }

    private static ScaledTableCut? Table(MapFields fields, double? atLeast, int? items, YamlProblems problems)
    {
        const string accepted = "a list of [correct answers, scaled score], such as [[0, 200], [49, 500], [75, 800]]";
        if (fields.List("table", required: true, accepted) is not { } list)
        {
            return null;
        }

        ImmutableArray<ScaledScore>.Builder rows = ImmutableArray.CreateBuilder<ScaledScore>(list.Items.Count);
        int before = problems.Count;
        foreach (YamlNode node in list.Items)
        {
            if (Row(node) is not { } row)
            {
                string shown = node is YamlScalar scalar ? YamlProblems.Show(scalar.Value) : node is YamlList { Items: var cells } && cells.All(c => c is YamlScalar)
                    ? $"[{string.Join(", ", cells.Take(4).Cast<YamlScalar>().Select(c => c.Value.Length > 20 ? c.Value[..20] + "…" : c.Value))}]" : node.Kind;
                problems.Add(node.Line, $"{fields.Place}, table: {shown} is not a row; give [correct answers, scaled score], such as [49, 500].");
                continue;
            }

            if (row.Correct > items)
            {
                problems.Add(node.Line, $"{fields.Place}, table: {row.Correct} correct answers are more than the {items} scored items; give 0 to {items}.");
            }

            if (rows.Count > 0 && (row.Correct <= rows[^1].Correct || row.Scaled < rows[^1].Scaled))
            {
                problems.Add(node.Line, $"{fields.Place}, table: the row [{row.Correct}, {YamlProblems.Show(row.Scaled)}] comes after [{rows[^1].Correct}, {YamlProblems.Show(rows[^1].Scaled)}]; correct answers must rise from row to row and scaled scores must not fall.");
            }

            rows.Add(row);
        }

        if (problems.Count > before || atLeast is not { } mark)
        {
            return null;
        }

        if (rows.Count < 2)
        {
            fields.Problem("table", $"a table needs at least two rows, one below the mark and one that reaches it; give {accepted}.");
            return null;
        }

        if (rows[^1].Scaled < mark)
        {
            fields.Problem("table", $"no row reaches the mark {YamlProblems.Show(mark)}; the highest scaled score is {YamlProblems.Show(rows[^1].Scaled)}. Add the row that reaches it or correct at-least.");
            return null;
        }

        if (rows[0].Scaled >= mark)
        {
            fields.Problem("table", $"the first row, [{rows[0].Correct}, {YamlProblems.Show(rows[0].Scaled)}], already reaches the mark {YamlProblems.Show(mark)}; the table must cover the counts below it, best from [0, ...].");
            return null;
        }

        return new ScaledTableCut(mark, rows.ToImmutable());
    }

    private static ScaledScore? Row(YamlNode node) =>
        node is YamlList { Items: [YamlScalar correct, YamlScalar scaled] }
            && MapFields.ParseNumber(correct.Value) is { } count && count >= 0 && count <= ExamFile.MostItems && count == Math.Floor(count)
            && MapFields.ParseNumber(scaled.Value) is { } score && Math.Abs(score) <= FarthestScaled
            ? new ScaledScore((int)count, score)
            : null;
}
