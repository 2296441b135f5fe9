using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

using Homestretch.Core.Blueprints;
using Homestretch.Files.Exams.Editing;

namespace Homestretch.Files.Exams.Pasting;

/// <summary>Makes out topics, subtopics and weights in a pasted table, line by line.</summary>
internal sealed partial class TableReader
{
    private const int LongestLine = 1_000;
    private const int LongestShown = 160;
    private const int MostWordsOfAName = 14;

    // Published percentages are rounded.
    private const double RoundingOfSums = 3;

    private static readonly HashSet<string> _headingWords = new(StringComparer.OrdinalIgnoreCase)
    {
        "content", "domain", "domains", "area", "areas", "topic", "topics", "subject", "subjects", "subtopic", "subtopics", "weight", "weights", "weighting", "percent", "percentage", "percentages",
        "of", "the", "exam", "examination", "test", "number", "no", "items", "item", "questions", "question", "scored", "section", "sections", "category", "categories", "approximate", "approx", "share", "total", "and", "name",
        "title", "per", "in", "on", "by", "blueprint", "table", "outline", "competency", "competencies", "count", "range",
    };

    private static readonly string[] _connectors = ["and", "or", "of", "the", "for", "with", "to", "in", "on", "by", "from", "a", "an", "&", "/", ",", "including"];

    private readonly List<TableLine> _lines = [];
    private readonly List<string> _findings = [];

    private TableReader()
    {
    }

    private IEnumerable<TableLine> Candidates => _lines.Where(l => l.Use is null);

    /// <summary>Reads a text that is not too long.</summary>
    public static PastedTable Read(string text)
    {
        TableReader reader = new();
        reader.Split(text);
        reader.LeaveOutFurniture();
        reader.PlaceLoneWeights();
        reader.JoinBrokenNames();
        reader.FindLevels();
        reader.DecideBareFigures();
        ImmutableArray<SectionDraft> sections = reader.Sections();
        ImmutableArray<PastedLine> lines = [.. reader._lines.Select(l => new PastedLine(l.Number, l.Shown, l.Use ?? PastedUse.NotUsed, l.Name, Text(l.Weight), l.Remark))];
        return new(lines, sections, [.. reader._findings], sections.IsEmpty ? "No topic was found in this text." : null);
    }

    private static string Text(PastedWeight? weight) => weight switch
    {
        null or { Kind: PastedWeight.Unit.Bare } => "",
        { Kind: PastedWeight.Unit.Items } => WeightText.Write(Weight.Items((int)weight.Low)),
        _ => WeightText.Write(Weight.PercentRange(weight.Low, weight.High)),
    };

    // --- lines and columns

    private void Split(string text)
    {
        string[] raw = text.Normalize(NormalizationForm.FormC).ReplaceLineEndings("\n").Split('\n');
        string[] clean = [.. raw.Select(Clean)];
        char? delimiter = Delimiter(clean);
        PastedWeight.Unit?[] heads = [];
        HashSet<string> styles = [];
        bool countsPlainly = LineMarker.CountPlainly(clean.Where(l => l.Length <= LongestLine));
        for (int i = 0; i < clean.Length; i++)
        {
            if (clean[i].Trim(' ', '\t', '|').Length == 0)
            {
                continue;
            }

            string shown = clean[i].Replace('\t', ' ').Trim();
            shown = shown.Length > LongestShown ? shown[..LongestShown] + "…" : shown;
            string[] cells = clean[i].Length > LongestLine ? [clean[i][..LongestLine]] : Cells(clean[i], delimiter);
            int indent = Indent(clean[i], delimiter);
            cells = [.. cells.SkipWhile(c => c.Length == 0).DefaultIfEmpty("")];
            if (cells.Length > 1 && heads.ElementAtOrDefault(0) is null && MarkerOnly().IsMatch(cells[0]) && cells[1].Any(char.IsLetter))
            {
                cells = [$"{cells[0].TrimEnd('.', ')')}{(cells[0].Contains('.', StringComparison.Ordinal) && char.IsAsciiDigit(cells[0][0]) && cells[0].TrimEnd('.').Contains('.', StringComparison.Ordinal) ? "" : ".")} {cells[1]}", .. cells[2..]];
                heads = heads.Length > 1 ? heads[1..] : heads;
            }

            bool heading = IsHeading(cells);
            if (heading && cells.Length > 1)
            {
                heads = [.. cells.Select(HeadUnit)];
            }

            LineMarker marker = LineMarker.Of(cells[0], styles, countsPlainly);
            FoundWeights found = FoundWeights.Of([marker.Rest, .. cells[1..]], heads);
            string name = Name(found.Rest);
            if (name.Length == 0 && marker.Word.Length > 0)
            {
                name = Name(marker.Rest.Length == 0 ? cells[0] : cells[0][..^marker.Rest.Length]);
            }

            TableLine line = new() { Number = i + 1, Shown = shown, Indent = indent, Marker = marker, Found = found, Name = name };
            line.Say(found.Remark);
            if (raw[i].Any(c => char.IsControl(c) && c is not '\t'))
            {
                line.Say("Characters that cannot be printed were left out.");
            }

            if (clean[i].Length > LongestLine)
            {
                line.LeaveOut($"The line is longer than {LongestLine:#,0} characters.");
            }
            else if (heading)
            {
                line.Use = PastedUse.Heading;
                line.Name = "";
            }
            else
            {
                styles.Add(marker.Style);
            }

            _lines.Add(line);
        }
    }

    private static string Clean(string line)
    {
        StringBuilder clean = new(line.Length);
        foreach (Rune rune in line.EnumerateRunes())
        {
            UnicodeCategory category = Rune.GetUnicodeCategory(rune);
            if (rune.Value == '\t')
            {
                clean.Append('\t');
            }
            else if (category == UnicodeCategory.SpaceSeparator)
            {
                clean.Append(' ');
            }
            else if (category is not (UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator) && rune != Rune.ReplacementChar)
            {
                clean.Append(rune);
            }
        }

        return clean.ToString().TrimEnd();
    }

    private static char? Delimiter(string[] lines)
    {
        string[] filled = [.. lines.Where(l => l.Trim().Length > 0 && l.Length <= LongestLine)];
        bool Most(Func<string, bool> has) => filled.Length > 0 && 2 * filled.Count(has) >= filled.Length;
        return Most(l => l.Trim().Contains('\t', StringComparison.Ordinal)) ? '\t'
            : Most(l => l.Trim().Trim('|').Contains('|', StringComparison.Ordinal)) ? '|'
            : Most(l => EndsInFigure(l, ';')) ? ';'
            : Most(l => EndsInFigure(l, ',')) ? ','
            : null;
    }

    private static bool EndsInFigure(string line, char delimiter)
    {
        string[] cells = [.. Cells(line, delimiter).Where(c => c.Length > 0)];
        return cells.Length > 1 && cells[0].Any(char.IsLetter) && CellOfFigure().IsMatch(cells[^1]);
    }

    private static string[] Cells(string line, char? delimiter, bool quotes = true)
    {
        if (delimiter is not { } separator)
        {
            return [.. Gap().Split(line.Trim()).Select(c => c.Trim())];
        }

        if (separator == '|')
        {
            line = line.Trim().Trim('|');
        }

        List<string> cells = [];
        StringBuilder cell = new();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (quotes && c == '"' && (quoted || cell.ToString().Trim().Length == 0))
            {
                if (quoted && i + 1 < line.Length && line[i + 1] == '"')
                {
                    cell.Append('"');
                    i++;
                }
                else
                {
                    quoted = !quoted;
                }
            }
            else if (c == separator && !quoted && !(c == ',' && i > 0 && i + 1 < line.Length && char.IsAsciiDigit(line[i - 1]) && char.IsAsciiDigit(line[i + 1])))
            {
                cells.Add(cell.ToString().Trim());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString().Trim());

        // A quotation mark that is never closed is a letter like any other.
        return quoted ? Cells(line, delimiter, quotes: false) : [.. cells];
    }

    private static int Indent(string line, char? delimiter)
    {
        int indent = 0;
        foreach (char c in line)
        {
            if (c == '\t' || c == delimiter)
            {
                indent += 4;
            }
            else if (c == ' ')
            {
                indent++;
            }
            else
            {
                break;
            }
        }

        return indent;
    }

    private static bool IsHeading(string[] cells)
    {
        string[] words = [.. Words().Matches(string.Join(' ', cells)).Select(m => m.Value)];
        return words.Length > 0 && words.All(_headingWords.Contains) && !cells.Any(c => c.Any(char.IsAsciiDigit));
    }

    private static PastedWeight.Unit? HeadUnit(string cell) =>
        cell.Contains('%', StringComparison.Ordinal) || cell.Contains("percent", StringComparison.OrdinalIgnoreCase) ? PastedWeight.Unit.Percent
        : cell.Contains("item", StringComparison.OrdinalIgnoreCase) || cell.Contains("question", StringComparison.OrdinalIgnoreCase) ? PastedWeight.Unit.Items
        : null;

    private static string Name(string text) => string.Join(' ', text.Trim(' ', ':', ';', ',', '-', '–', '—', '|', '.', '\t').Replace("()", "", StringComparison.Ordinal).Split(' ', StringSplitOptions.RemoveEmptyEntries));

    // --- what is no topic

    private void LeaveOutFurniture()
    {
        HashSet<string> repeated = [.. Candidates.Where(l => l.Found.None && l.Marker.Style.Length == 0 && l.Name.Length > 0).GroupBy(l => l.Name, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1).Select(g => g.Key.ToUpperInvariant())];
        foreach (TableLine line in Candidates.ToArray())
        {
            if (Ruled().IsMatch(line.Shown))
            {
                line.LeaveOut("A ruled line.");
            }
            else if (Furniture().IsMatch(line.Shown))
            {
                line.LeaveOut("A header, footer or note of the page.");
            }
            else if (Totals().IsMatch(line.Name) && !line.Found.None)
            {
                line.Use = PastedUse.Total;
                line.Weight = line.Found.Items ?? line.Found.Percent ?? line.Found.Bare;
            }
            else if (line.Found.None && line.Name.Length == 0)
            {
                line.LeaveOut("There is no name on this line.");
            }
            else if (line.Found.None && line.Marker.Style.Length == 0 && repeated.Contains(line.Name.ToUpperInvariant()))
            {
                line.LeaveOut("This line comes more than once, as headers and footers of pages do.");
            }
            else if (line.Found.None && IsSentence(line))
            {
                line.LeaveOut("It reads like a sentence, not like a name.");
            }
        }
    }

    private static bool IsSentence(TableLine line) =>
        Words().Count(line.Name) > MostWordsOfAName || (line.Shown.EndsWith('.') && line.Marker.Style.Length == 0 && Words().Count(line.Name) > 5);

    // Some documents give, when copied, first all names and then all weights, or each weight on a line of its own.
    private void PlaceLoneWeights()
    {
        TableLine[] lines = [.. Candidates];
        for (int i = 0; i < lines.Length; i++)
        {
            if (!IsLone(lines[i]))
            {
                continue;
            }

            int count = 1;
            while (i + count < lines.Length && IsLone(lines[i + count]))
            {
                count++;
            }

            int names = 0;
            while (i - names - 1 >= 0 && lines[i - names - 1] is { Use: null, Found.None: true })
            {
                names++;
            }

            for (int k = 0; k < count; k++)
            {
                TableLine weight = lines[i + k];
                TableLine? named = count == 1 && names >= 1 ? lines[i - 1] : names == count ? lines[i - names + k] : null;
                if (named is null)
                {
                    weight.LeaveOut("A weight without a name beside it; put it in yourself.");
                    continue;
                }

                weight.Use = PastedUse.Part;
                weight.Say(string.Create(CultureInfo.InvariantCulture, $"The weight of line {named.Number}."));
                named.Found = weight.Found with { Rest = named.Name, RestWithBare = named.Name };
            }

            i += count - 1;
        }
    }

    private static bool IsLone(TableLine line) => line is { Name.Length: 0, Found.None: false, Use: null };

    private void JoinBrokenNames()
    {
        TableLine[] lines = [.. Candidates];
        bool marked = 2 * lines.Count(l => l.Marker.Style.Length > 0) >= lines.Length;
        TableLine? before = null;
        foreach (TableLine line in lines)
        {
            if (before is not null && line.Marker.Style.Length == 0 && Continues(before, line, marked))
            {
                bool hyphen = before.Name.EndsWith('-') || before.Shown.EndsWith('-');
                before.Name = hyphen && before.Found.None && char.IsLower(line.Name[0]) ? before.Name.TrimEnd('-') + line.Name : $"{before.Name} {line.Name}";
                before.Found = before.Found.None ? line.Found : before.Found;
                line.Use = PastedUse.Part;
                line.Say(string.Create(CultureInfo.InvariantCulture, $"Goes on from line {before.Number}."));
                continue;
            }

            before = line;
        }
    }

    private static bool Continues(TableLine before, TableLine line, bool marked)
    {
        if (line.Name.Length == 0 || (!before.Found.None && !line.Found.None))
        {
            return false;
        }

        bool open = before.Shown.EndsWith('-') || before.Shown.EndsWith(',') || _connectors.Contains(before.Name.Split(' ')[^1], StringComparer.OrdinalIgnoreCase);
        bool small = char.IsLower(line.Name[0]);
        return before.Found.None
            ? open || small || (marked && before.Marker.Style.Length > 0 && !line.Found.None && line.Indent >= before.Indent)
            : small && (line.Indent <= before.Indent || open);
    }

    // --- levels

    private void FindLevels()
    {
        List<(string Style, int Indent)> open = [];
        bool anyWeight = Candidates.Any(l => !l.Found.None);
        foreach (TableLine line in Candidates.ToArray())
        {
            string style = line.Marker.Style;
            int at = open.FindLastIndex(o => o.Style == style && (style.Length > 0 ? !style.StartsWith("bullet", StringComparison.Ordinal) || Math.Abs(o.Indent - line.Indent) <= 1 : Math.Abs(o.Indent - line.Indent) <= 1));
            if (at < 0)
            {
                int outer = open.FindLastIndex(o => o.Indent <= line.Indent);
                int dotted = Depth(style) is { } depth ? open.FindIndex(o => Depth(o.Style) is { } d && d > depth) : -1;
                at = dotted >= 0 ? dotted : Math.Max(outer + 1, open.Count > 0 && outer < 0 ? 0 : outer + 1);
                open.RemoveRange(at, open.Count - at);
                open.Add((style, line.Indent));
            }
            else
            {
                open.RemoveRange(at + 1, open.Count - at - 1);
            }

            line.Level = at;
            if (!anyWeight || !line.Found.None || style.Length > 0)
            {
                continue;
            }

            // Where others have a weight, a bare name is part of the topic above it, or no topic at all.
            if (!Candidates.TakeWhile(l => l != line).Any(l => l.Level == 0 && (!l.Found.None || l.Marker.Style.Length > 0)))
            {
                line.LeaveOut("It has no weight and comes before the first topic.");
                open.RemoveRange(at, open.Count - at);
            }
            else if (at == 0)
            {
                line.Level = 1;
            }
        }
    }

    private static int? Depth(string style) => style.StartsWith("dotted-", StringComparison.Ordinal) ? style[^1] - '0' : null;

    // --- weights

    private void DecideBareFigures()
    {
        TableLine[] all = [.. Candidates];
        TableLine[] bare = [.. all.Where(l => l.Found is { Bare: not null, Percent: null, Items: null })];
        int explicitly = all.Count(l => l.Found.Percent is not null || l.Found.Items is not null);
        foreach (TableLine line in all)
        {
            line.Weight = line.Found.Percent ?? line.Found.Items;
        }

        if (bare.Length == 0)
        {
            return;
        }

        TableLine[] top = [.. bare.Where(l => l.Level == bare.Min(b => b.Level))];
        double sum = top.Sum(l => (l.Found.Bare!.Low + l.Found.Bare.High) / 2);
        double factor = Math.Abs(sum - 1) < 0.03 && top.Length > 1 ? 100 : 1;
        PastedWeight.Unit? unit = explicitly >= bare.Length || 2 * bare.Length < all.Length ? null
            : factor == 100 || Math.Abs(sum - 100) <= RoundingOfSums ? PastedWeight.Unit.Percent
            : bare.All(l => l.Found.Bare!.Low == Math.Floor(l.Found.Bare.Low) && l.Found.Bare.Low == l.Found.Bare.High && l.Found.Bare.Low >= 1) ? PastedWeight.Unit.Items
            : null;
        foreach (TableLine line in bare)
        {
            PastedWeight figure = line.Found.Bare!;
            if (unit is { } known)
            {
                line.Weight = new(known, Math.Round(figure.Low * factor, 6), Math.Round(figure.High * factor, 6));
            }
            else
            {
                line.Name = Name(line.Found.RestWithBare);
                line.Say("Its number has no unit (percent or items) and was not taken for a weight.");
            }
        }

        if (unit is { } taken)
        {
            _findings.Add(taken == PastedWeight.Unit.Percent ? "The figures have no unit. They sum to about 100, so they were taken for percent." : "The figures have no unit. They do not sum to 100, so they were taken for items.");
        }
    }

    private ImmutableArray<SectionDraft> Sections()
    {
        TableLine[] lines = [.. Candidates];
        HashSet<TableLine> sections = [.. lines.Where((l, i) => IsSection(lines, i))];
        ImmutableArray<SectionDraft>.Builder read = ImmutableArray.CreateBuilder<SectionDraft>();
        List<TableLine> group = [];
        TableLine? section = null;
        foreach (TableLine line in lines)
        {
            if (sections.Contains(line))
            {
                Close();
                section = line;
                line.Use = PastedUse.Section;
                continue;
            }

            group.Add(line);
        }

        Close();
        CompareTotals(read);
        return read.ToImmutable();

        void Close()
        {
            if (group.Count > 0)
            {
                read.Add(Section(section, group));
            }

            section = null;
            group = [];
        }
    }

    // "Part 1" is a section where what follows it adds up for itself; otherwise it is a topic like any other.
    private static bool IsSection(TableLine[] lines, int index)
    {
        TableLine line = lines[index];
        if (line.Level != 0 || line.Marker.Word is not ("section" or "part" or "paper" or "component"))
        {
            return false;
        }

        TableLine[] inside = [.. lines[(index + 1)..].TakeWhile(l => l.Level > 0).Where(l => l.Level == 1)];
        double percent = inside.Sum(l => l.Found.Percent is { } p ? (p.Low + p.High) / 2 : 0);
        return inside.Length > 1
            && ((inside.All(l => l.Found.Percent is not null) && Math.Abs(percent - 100) <= RoundingOfSums)
                || (inside.All(l => l.Found.Items is not null) && (line.Found.Items is null || line.Found.Items.Low == inside.Sum(l => l.Found.Items!.Low))));
    }

    private SectionDraft Section(TableLine? section, List<TableLine> lines)
    {
        int first = lines.Min(l => l.Level);
        List<(TableLine Line, List<TableLine> Parts)> topics = [];
        foreach (TableLine line in lines)
        {
            if (line.Level == first || topics.Count == 0)
            {
                line.Use = PastedUse.Topic;
                topics.Add((line, []));
            }
            else if (line.Level == first + 1)
            {
                line.Use = PastedUse.Subtopic;
                topics[^1].Parts.Add(line);
            }
            else
            {
                line.LeaveOut("A third level; a blueprint here holds topics and their subtopics.");
            }
        }

        bool items = topics.All(t => t.Line.Found.Items is not null || t.Line.Weight is { Kind: PastedWeight.Unit.Items });
        foreach ((TableLine line, List<TableLine> parts) in topics)
        {
            if (items)
            {
                line.Weight = line.Found.Items ?? line.Weight;
            }

            if (line.Found is { Percent: not null, Items: not null })
            {
                line.Say(items ? $"Also says {Text(line.Found.Percent)}; the items count." : $"Also says {Text(line.Found.Items)}; the percentage counts, since not every topic gives items.");
            }

            ShareOfTopic(line, parts);
        }

        Sum(section, topics);
        double scored = section?.Found.Items?.Low ?? (items ? topics.Sum(t => t.Line.Weight!.Low) : 0);
        return SectionDraft.Blank with
        {
            Name = section?.Name ?? "",
            ScoredItems = scored > 0 ? scored.ToString(CultureInfo.InvariantCulture) : "",
            Topics = [.. topics.Select(t => new TopicDraft(t.Line.Name, Text(t.Line.Weight), [.. t.Parts.Select(p => new SubtopicDraft(p.Name, Text(p.Weight)))]))],
        };
    }

    // The exam file wants shares of the topic; many documents print shares of the whole.
    private static void ShareOfTopic(TableLine topic, List<TableLine> parts)
    {
        if (parts.Count == 0 || topic.Weight is not { Kind: PastedWeight.Unit.Percent } weight || parts.Any(p => p.Weight is not { Kind: PastedWeight.Unit.Percent }))
        {
            return;
        }

        double sum = parts.Sum(p => (p.Weight!.Low + p.Weight.High) / 2);
        double whole = (weight.Low + weight.High) / 2;
        if (Math.Abs(sum - 100) <= 1 || Math.Abs(sum - whole) > 1)
        {
            return;
        }

        foreach (TableLine part in parts)
        {
            string before = Text(part.Weight);
            double share = Math.Round((part.Weight!.Low + part.Weight.High) / 2 / sum * 100, 1);
            part.Weight = new(PastedWeight.Unit.Percent, share, share);
            part.Say($"{before} of the whole is {Text(part.Weight)} of the topic.");
        }
    }

    private void Sum(TableLine? section, List<(TableLine Line, List<TableLine> Parts)> topics)
    {
        string where = section is null ? "The topics" : $"The topics of '{section.Name}'";
        int without = topics.Count(t => t.Line.Weight is null);
        if (without > 0)
        {
            _findings.Add(without == topics.Count
                ? $"{where} have no weights; put them in yourself."
                : string.Create(CultureInfo.InvariantCulture, $"{without} of {topics.Count} topics have no weight: {string.Join(", ", topics.Where(t => t.Line.Weight is null).Take(5).Select(t => t.Line.Name))}."));
        }
        else if (topics.Select(t => t.Line.Weight!.Kind).Distinct().Count() > 1)
        {
            _findings.Add($"{where} have weights in percent and in items; one unit is needed for all of them.");
        }
        else if (topics[0].Line.Weight!.Kind == PastedWeight.Unit.Percent)
        {
            double low = Math.Round(topics.Sum(t => t.Line.Weight!.Low), 4);
            double high = Math.Round(topics.Sum(t => t.Line.Weight!.High), 4);
            bool fits = low == high ? Math.Abs(low - 100) <= 1 : low <= 100 && high >= 100;
            string sum = low == high ? $"{ExamFileText.Number(low)} %" : $"{ExamFileText.Number(low)} to {ExamFileText.Number(high)} %";
            _findings.Add($"{where} sum to {sum}{(fits ? "." : ", and 100 is needed: a line may be missing or one too many.")}");
        }
        else
        {
            _findings.Add(string.Create(CultureInfo.InvariantCulture, $"{where} sum to {topics.Sum(t => t.Line.Weight!.Low)} items."));
        }
    }

    private void CompareTotals(ImmutableArray<SectionDraft>.Builder sections)
    {
        foreach (TableLine total in _lines.Where(l => l.Use == PastedUse.Total))
        {
            TableLine[] topics = [.. _lines.Where(l => l is { Use: PastedUse.Topic, Weight: not null })];
            double[] sums = [.. topics.GroupBy(t => t.Weight!.Kind).Select(g => g.Sum(t => t.Weight!.Low))];
            if (total.Found.Items is { } items)
            {
                if (topics.Length > 0 && topics.All(t => t.Weight!.Kind == PastedWeight.Unit.Items) && topics.Sum(t => t.Weight!.Low) != items.Low)
                {
                    _findings.Add(string.Create(CultureInfo.InvariantCulture, $"Line {total.Number} says that there are {items.Low} items in all; the topics sum to {topics.Sum(t => t.Weight!.Low)}."));
                }

                if (sections.Count == 1 && sections[0].ScoredItems.Length == 0)
                {
                    sections[0] = sections[0] with { ScoredItems = items.Low.ToString(CultureInfo.InvariantCulture) };
                    total.Say("Taken for the scored items of the section.");
                }
            }
            else if (total.Found.Bare is { } bare && sums.Length == 1 && Math.Abs(sums[0] - bare.Low) > RoundingOfSums && topics.All(t => t.Weight!.Low == t.Weight.High))
            {
                _findings.Add(string.Create(CultureInfo.InvariantCulture, $"Line {total.Number} gives a total of {ExamFileText.Number(bare.Low)}; the topics sum to {ExamFileText.Number(sums[0])}."));
            }
        }
    }

    [GeneratedRegex(@"\s{2,}|\t", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Gap();

    [GeneratedRegex(@"[\p{L}]+", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Words();

    [GeneratedRegex(@"^\(?(?:[IVXLCivxlc]{1,6}|[A-Za-z]|[0-9]{1,3}(?:\.[0-9]{1,3})*)[.)]?$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex MarkerOnly();

    [GeneratedRegex(@"^[~<>≤≥(=]?\s*(?:approx\S*\s+|about\s+|ca\.?\s*)?[0-9][0-9.,\s%–—-]*(?:to\s+[0-9.,\s%]+)?\s*(?:%|percent|items?|questions?)?\)?$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex CellOfFigure();

    [GeneratedRegex(@"^[\s|:+=_*\u2500-\u257F\u2010-\u2015-]+$", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Ruled();

    [GeneratedRegex(@"^(?:page\s+[0-9ivxlc]+\b.*|[0-9]{1,4}\s*(?:/|of|\|)\s*[0-9]{1,4}|.*©.*|.*\bcopyright\s+(?:©|\(c\)|[0-9]{4}).*|(?:.*\s)?(?:https?://|www\.)\S+|.*\ball rights reserved\b.*|(?:table|figure|source|note|notes)\s*(?:[0-9]+)?\s*[:.].*|.*\bpage\s+[0-9]+(?:\s+of\s+[0-9]+)?|.*\(continued\).*|\*.*(?:may not|rounding|rounded).*)$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex Furniture();

    [GeneratedRegex(@"^(?:grand\s+|sub-?)?(?:totals?|sum|overall|altogether|in all)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, 1000)]
    private static partial Regex Totals();
}
