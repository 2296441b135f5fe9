using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

using Homestretch.Core.Blueprints;

namespace Homestretch.Files.Exams.Editing;

/// <summary>What is wrong with a form for an exam, field by field, and what it adds up to.</summary>
/// <param name="Exam">The exam; null where anything is wrong.</param>
/// <param name="Problems">Everything that is wrong, in the order of the exam file.</param>
/// <param name="Sums">What each section adds up to, also where something is wrong.</param>
/// <param name="Text">The exam file that the form makes.</param>
public sealed partial record DraftCheck(Exam? Exam, ImmutableArray<DraftProblem> Problems, ImmutableArray<SectionSum> Sums, string Text)
{
    /// <summary>Checks a form: the checks, and the words, are those of the exam file it makes.</summary>
    public static DraftCheck Of(ExamDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        WrittenExam written = ExamFileText.Write(draft);
        ReadResult<Exam> read = ExamFile.Parse("form", written.Text);
        List<DraftProblem> problems = [.. read.Problems.Select(p => Placed(p, written.Fields))];
        NoteCut(draft.Total, DraftField.Total, problems);
        for (int s = 0; s < draft.Sections.Length; s++)
        {
            NoteCut(draft.Sections[s].Cut, DraftField.Section(s, "cut"), problems);
        }

        return new(problems.Count == 0 ? read.Value : null, [.. problems], [.. draft.Sections.Select(Sum)], written.Text);
    }

    private static void NoteCut(CutDraft cut, string field, List<DraftProblem> problems)
    {
        if (cut.Kind.Length == 0 && !string.IsNullOrWhiteSpace(cut.Mark))
        {
            problems.Add(new(DraftField.Cut(field, "kind"), "A cut score is typed, but not what it counts; choose correct answers, percent or a scaled score, or empty the field."));
        }
        else if (cut.Kind is not ("" or CutDraft.Correct or CutDraft.Percent or CutDraft.Scaled))
        {
            problems.Add(new(DraftField.Cut(field, "kind"), "This is no kind of cut score; choose correct answers, percent or a scaled score."));
        }
    }

    // A line belongs to the field that it was made of, except where the message names a key that is missing beside it.
    private static DraftProblem Placed(FileProblem problem, ImmutableArray<string> fields)
    {
        string field = fields[Math.Clamp(problem.Line, 1, fields.Length) - 1];
        if (MissingKey().Match(problem.Message) is { Success: true } missing)
        {
            field = missing.Groups[1].Value switch
            {
                "pass" when field.EndsWith("-name", StringComparison.Ordinal) => field[..^5] + "-cut-mark",
                "total" => DraftField.Cut(DraftField.Total, "mark"),
                "weight" when field.EndsWith("-name", StringComparison.Ordinal) => field[..^5] + "-weight",
                "rule" => DraftField.Rule,
                _ => field,
            };
        }

        string text = FirstLine().Replace(
            problem.Message,
            m => DraftField.Place(fields[Math.Clamp(int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture), 1, fields.Length) - 1]) is { Length: > 0 } place ? $", first as {place}" : "");
        return new(field, text);
    }

    private static SectionSum Sum(SectionDraft section, int index)
    {
        TopicDraft[] topics = [.. section.Topics.Where(t => !t.IsBlank)];
        Weight?[] weights = [.. topics.Select(t => WeightText.Parse(t.Weight.Trim(), out _))];
        Weight[] read = [.. weights.OfType<Weight>()];
        int? scored = Whole(section.ScoredItems, 1);
        bool? inItems = read.Length == 0 || read.Any(w => w.Unit != read[0].Unit) ? null : read[0].Unit == WeightUnit.Items;
        int[]? counts = scored is { } total && read.Length == topics.Length && inItems is not null
            ? Apportionment.LargestRemainder([.. read.Select(w => w.Midpoint)], total)
            : null;
        return new(
            string.IsNullOrWhiteSpace(section.Name) ? string.Create(CultureInfo.InvariantCulture, $"Section {index + 1}") : section.Name.Trim(),
            scored,
            Whole(section.UnscoredItems, 0) ?? 0,
            Whole(section.Minutes, 1),
            inItems,
            inItems is null ? 0 : read.Sum(w => w.Low),
            inItems is null ? 0 : read.Sum(w => w.High),
            topics.Length - read.Length,
            [.. topics.Select((t, i) => (string.IsNullOrWhiteSpace(t.Name) ? string.Create(CultureInfo.InvariantCulture, $"Topic {i + 1}") : t.Name.Trim(), inItems == true ? (int?)weights[i]?.Low : counts?[i]))]);
    }

    private static int? Whole(string text, int least) =>
        int.TryParse(text.Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value >= least && value <= ExamFile.MostItems ? value : null;

    [GeneratedRegex("'([a-z-]+)' is missing", RegexOptions.CultureInvariant)]
    private static partial Regex MissingKey();

    [GeneratedRegex(", first on line ([0-9]{1,6})", RegexOptions.CultureInvariant)]
    private static partial Regex FirstLine();
}
