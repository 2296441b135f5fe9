using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

using Homestretch.Core.Blueprints;

namespace Homestretch.Files.Exams.Editing;

/// <summary>Writes exam files as docs/exam-file.md describes them.</summary>
public static partial class ExamFileText
{
    private static readonly string[] _nothing = ["true", "false", "null", "yes", "no", "on", "off", "y", "n"];

    /// <summary>The file of an exam. Reading it gives the same exam.</summary>
    public static string Write(Exam exam) => Write(ExamDraft.Of(exam)).Text;

    /// <summary>The file of what was typed, right or wrong. Empty rows and empty fields that need not be filled in are left out.</summary>
    public static WrittenExam Write(ExamDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        Lines lines = new();
        lines.Value(0, "exam", draft.Name, DraftField.Name, needed: true);
        lines.Value(0, "edition", draft.Edition, DraftField.Edition);
        if (Given(draft.SourceTitle, draft.SourceDate, draft.SourceWhere))
        {
            lines.Add("source:", DraftField.SourceTitle);
            lines.Value(1, "title", draft.SourceTitle, DraftField.SourceTitle, needed: true);
            lines.Value(1, "date", draft.SourceDate, DraftField.SourceDate, needed: true);
            lines.Value(1, "where", draft.SourceWhere, DraftField.SourceWhere);
        }

        lines.Value(0, "notes", draft.Notes, DraftField.Notes);
        lines.Value(0, "rule", draft.Rule, DraftField.Rule);
        Cut(lines, 0, "total", draft.Total, DraftField.Total);
        if (Given(draft.WaitingDays, draft.AttemptsPerYear))
        {
            lines.Add("retake:", DraftField.WaitingDays);
            lines.Value(1, "waiting-days", draft.WaitingDays, DraftField.WaitingDays, needed: true);
            lines.Value(1, "attempts-per-year", draft.AttemptsPerYear, DraftField.AttemptsPerYear);
        }

        if (Given(draft.WeakBelow, draft.StrongFrom))
        {
            lines.Add("bands:", DraftField.WeakBelow);
            lines.Value(1, "weak-below", draft.WeakBelow, DraftField.WeakBelow, needed: true);
            lines.Value(1, "strong-from", draft.StrongFrom, DraftField.StrongFrom, needed: true);
        }

        lines.Add(draft.Sections.IsEmpty ? "sections: []" : "sections:", DraftField.Sections);
        for (int s = 0; s < draft.Sections.Length; s++)
        {
            Section(lines, s, draft.Sections[s]);
        }

        return lines.Whole();
    }

    /// <summary>A number in plain digits that reads back as the same number; at most 15 decimals.</summary>
    internal static string Number(double value)
    {
        string text = value.ToString("R", CultureInfo.InvariantCulture);
        return text.Contains('E', StringComparison.Ordinal) ? value.ToString("F15", CultureInfo.InvariantCulture).TrimEnd('0').TrimEnd('.') : text;
    }

    private static bool Given(params ReadOnlySpan<string> values)
    {
        foreach (string value in values)
        {
            if (!string.IsNullOrWhiteSpace(value))
            {
                return true;
            }
        }

        return false;
    }

    private static void Section(Lines lines, int s, SectionDraft section)
    {
        lines.Value(2, "name", section.Name, DraftField.Section(s, "name"), needed: true, starts: true);
        lines.Value(2, "scored-items", section.ScoredItems, DraftField.Section(s, "scored"), needed: true);
        lines.Value(2, "unscored-items", section.UnscoredItems, DraftField.Section(s, "unscored"));
        lines.Value(2, "minutes", section.Minutes, DraftField.Section(s, "minutes"));
        lines.Value(2, "options", section.Options, DraftField.Section(s, "options"), needed: true);
        Cut(lines, 2, "pass", section.Cut, DraftField.Section(s, "cut"));
        bool any = section.Topics.Any(t => !t.IsBlank);
        lines.Add(any ? "    topics:" : "    topics: []", DraftField.Section(s, "topics"));
        for (int t = 0; t < section.Topics.Length; t++)
        {
            if (section.Topics[t] is not { IsBlank: false } topic)
            {
                continue;
            }

            lines.Value(4, "name", topic.Name, DraftField.Topic(s, t, "name"), needed: true, starts: true);
            lines.Value(4, "weight", topic.Weight, DraftField.Topic(s, t, "weight"), needed: true);
            if (topic.Subtopics.Any(p => !p.IsBlank))
            {
                lines.Add("        subtopics:", DraftField.Topic(s, t, "subtopics"));
            }

            for (int p = 0; p < topic.Subtopics.Length; p++)
            {
                if (topic.Subtopics[p] is { IsBlank: false } part)
                {
                    lines.Value(6, "name", part.Name, DraftField.Subtopic(s, t, p, "name"), needed: true, starts: true);
                    lines.Value(6, "weight", part.Weight, DraftField.Subtopic(s, t, p, "weight"));
                }
            }
        }
    }

    private static void Cut(Lines lines, int level, string key, CutDraft cut, string field)
    {
        string mark = DraftField.Cut(field, "mark");
        if (cut.Kind is CutDraft.Correct or CutDraft.Percent)
        {
            // A kind without a mark is a field left empty: the rule says whether a cut score is needed.
            if (Given(cut.Mark))
            {
                lines.Add($"{Indent(level)}{key}:", mark);
                lines.Value(level + 1, cut.Kind, cut.Mark, mark, needed: true);
            }
        }
        else if (cut.Kind == CutDraft.Scaled && Given(cut.Mark, cut.AtZero, cut.AtAll, cut.Table))
        {
            lines.Add($"{Indent(level)}{key}:", mark);
            lines.Add($"{Indent(level + 1)}scaled:", mark);
            lines.Value(level + 2, "at-least", cut.Mark, mark, needed: true);
            lines.Value(level + 2, "at-zero", cut.AtZero, DraftField.Cut(field, "zero"));
            lines.Value(level + 2, "at-all", cut.AtAll, DraftField.Cut(field, "all"));
            if (Given(cut.Table))
            {
                string table = DraftField.Cut(field, "table");
                lines.Add($"{Indent(level + 2)}table:", table);
                foreach (string row in cut.Table.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
                {
                    string[] cells = row.Split([' ', '\t', ';', ','], StringSplitOptions.RemoveEmptyEntries);
                    lines.Add($"{Indent(level + 3)}- [{string.Join(", ", cells.Select(c => Scalar(c)))}]", table);
                }
            }
        }
    }

    private static string Indent(int level) => new(' ', 2 * level);

    private static string Scalar(string text, bool isText = false) =>
        (!isText && PlainNumber().IsMatch(text)) || (PlainText().IsMatch(text) && !_nothing.Contains(text, StringComparer.OrdinalIgnoreCase)) ? text : Quoted(text);

    private static string Quoted(string text)
    {
        StringBuilder quoted = new("\"");
        foreach (Rune rune in text.EnumerateRunes())
        {
            _ = rune.Value switch
            {
                '"' or '\\' => quoted.Append('\\').Append(rune),
                '\n' => quoted.Append("\\n"),
                '\t' => quoted.Append("\\t"),
                _ when Rune.IsControl(rune) || rune.Value is 0x2028 or 0x2029 or 0xFEFF or 0xFFFE or 0xFFFF => quoted.Append(CultureInfo.InvariantCulture, $"\\u{rune.Value:X4}"),
                _ => quoted.Append(rune),
            };
        }

        return quoted.Append('"').ToString();
    }

    // Digits with a unit or a date; and words that no reader of YAML takes for anything else.
    [GeneratedRegex(@"^[0-9][0-9.]*(?:[-–][0-9.]+){0,2}(?: (?:%|items?))?$", RegexOptions.CultureInvariant)]
    private static partial Regex PlainNumber();

    [GeneratedRegex(@"^\p{L}[\p{L}\p{Nd}(),./%'’–-]*(?: [\p{L}\p{Nd}(),./%'’–&-]+)*$", RegexOptions.CultureInvariant)]
    private static partial Regex PlainText();

    private sealed class Lines
    {
        private readonly StringBuilder _text = new();
        private readonly ImmutableArray<string>.Builder _fields = ImmutableArray.CreateBuilder<string>();

        public void Add(string line, string field)
        {
            _text.Append(line).Append('\n');
            _fields.Add(field);
        }

        // An empty value is written only where it is needed, so that reading says that it is missing.
        public void Value(int level, string key, string value, string field, bool needed = false, bool starts = false)
        {
            string trimmed = value.Trim().ReplaceLineEndings("\n");
            if (trimmed.Length > 0 || needed)
            {
                Add($"{(starts ? Indent(level - 1) + "- " : Indent(level))}{key}: {Scalar(trimmed, key is "exam" or "title" or "where" or "name" or "notes")}", field);
            }
        }

        public WrittenExam Whole() => new(_text.ToString(), _fields.ToImmutable());
    }
}
