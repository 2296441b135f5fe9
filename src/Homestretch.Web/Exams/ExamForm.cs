using System.Collections.Immutable;

using Homestretch.Files.Exams.Editing;

namespace Homestretch.Web.Exams;

/// <summary>Reads the form of an exam as a browser sends it.</summary>
public static class ExamForm
{
    /// <summary>Most values that a form of an exam may have; a form of 2,000 topics has fewer.</summary>
    public const int MostValues = 10_000;

    /// <summary>What was typed.</summary>
    public static ExamDraft Read(IFormCollection form)
    {
        ArgumentNullException.ThrowIfNull(form);
        string Value(string field) => form[field].ToString();
        CutDraft Cut(string field) => new(
            Value(DraftField.Cut(field, "kind")), Value(DraftField.Cut(field, "mark")), Value(DraftField.Cut(field, "zero")), Value(DraftField.Cut(field, "all")), Value(DraftField.Cut(field, "table")).ReplaceLineEndings("\n"));

        return new()
        {
            Name = Value(DraftField.Name),
            Edition = Value(DraftField.Edition),
            SourceTitle = Value(DraftField.SourceTitle),
            SourceDate = Value(DraftField.SourceDate),
            SourceWhere = Value(DraftField.SourceWhere),
            Rule = Value(DraftField.Rule),
            Total = Cut(DraftField.Total),
            WaitingDays = Value(DraftField.WaitingDays),
            AttemptsPerYear = Value(DraftField.AttemptsPerYear),
            WeakBelow = Value(DraftField.WeakBelow),
            StrongFrom = Value(DraftField.StrongFrom),
            Notes = Value(DraftField.Notes).ReplaceLineEndings("\n"),
            Sections = Rows(form, s => DraftField.Section(s, "name"), s => new SectionDraft(
                Value(DraftField.Section(s, "name")),
                Value(DraftField.Section(s, "scored")),
                Value(DraftField.Section(s, "unscored")),
                Value(DraftField.Section(s, "minutes")),
                Value(DraftField.Section(s, "options")),
                Cut(DraftField.Section(s, "cut")),
                Rows(form, t => DraftField.Topic(s, t, "name"), t => new TopicDraft(
                    Value(DraftField.Topic(s, t, "name")),
                    Value(DraftField.Topic(s, t, "weight")),
                    Rows(form, p => DraftField.Subtopic(s, t, p, "name"), p => new SubtopicDraft(
                        Value(DraftField.Subtopic(s, t, p, "name")),
                        Value(DraftField.Subtopic(s, t, p, "weight")))))))),
        };
    }

    private static ImmutableArray<T> Rows<T>(IFormCollection form, Func<int, string> field, Func<int, T> read)
    {
        ImmutableArray<T>.Builder rows = ImmutableArray.CreateBuilder<T>();
        while (form.ContainsKey(field(rows.Count)))
        {
            rows.Add(read(rows.Count));
        }

        return rows.ToImmutable();
    }
}
