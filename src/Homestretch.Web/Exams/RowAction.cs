using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Files.Exams.Editing;

namespace Homestretch.Web.Exams;

/// <summary>What a button beside a row of an exam's form does, such as <c>remove-topic:0.2</c>.</summary>
public static class RowAction
{
    /// <summary>A button's value.</summary>
    /// <param name="what">add, remove, up or down; a hyphen; section, topic or subtopic.</param>
    /// <param name="places">Section, topic and subtopic, from 0, as far as it goes.</param>
    public static string Of(string what, params ReadOnlySpan<int> places) => places.Length == 0 ? what : $"{what}:{string.Join('.', places.ToArray())}";

    /// <summary>Does it.</summary>
    /// <param name="edit">The exam as typed.</param>
    /// <param name="action">The button's value.</param>
    /// <param name="field">The field to go on with.</param>
    /// <returns>The exam afterwards; null where there is no such button or row.</returns>
    public static ExamEdit? Apply(ExamEdit edit, string action, out string field)
    {
        ArgumentNullException.ThrowIfNull(edit);
        ArgumentNullException.ThrowIfNull(action);
        field = "";
        string[] parts = action.Split(':');
        int[] at = parts.Length == 2 ? [.. parts[1].Split('.').Select(p => int.TryParse(p, NumberStyles.None, CultureInfo.InvariantCulture, out int n) ? n : -1)] : [];
        ExamDraft draft = edit.Draft;
        ImmutableArray<SectionDraft> sections = draft.Sections;
        int s = at.ElementAtOrDefault(0);
        int t = at.ElementAtOrDefault(1);
        int p = at.ElementAtOrDefault(2);
        if (at.Contains(-1) || (at.Length > 0 && s >= sections.Length) || (at.Length > 1 && t >= sections[s].Topics.Length) || (at.Length > 2 && p >= sections[s].Topics[t].Subtopics.Length))
        {
            return null;
        }

        switch (parts[0], at.Length)
        {
            case ("add-section", 0):
                field = DraftField.Section(sections.Length, "name");
                return edit with { Draft = draft with { Sections = sections.Add(SectionDraft.Blank) } };
            case ("remove-section", 1):
                field = DraftField.Sections;
                return edit.Changed(draft with { Sections = sections.RemoveAt(s) }, Removed("section", sections[s].Name));
            case ("up-section" or "down-section", 1):
                int place = Moved(parts[0], s, sections.Length);
                field = DraftField.Section(place, "name");
                return edit with { Draft = draft with { Sections = Move(sections, s, place) } };
            case ("add-topic", 1):
                field = DraftField.Topic(s, sections[s].Topics.Length, "name");
                return edit with { Draft = With(draft, s, sections[s] with { Topics = sections[s].Topics.Add(TopicDraft.Blank) }) };
            case ("remove-topic", 2):
                field = DraftField.Topic(s, Math.Min(t, Math.Max(0, sections[s].Topics.Length - 2)), "name");
                return edit.Changed(With(draft, s, sections[s] with { Topics = sections[s].Topics.RemoveAt(t) }), Removed("topic", sections[s].Topics[t].Name));
            case ("up-topic" or "down-topic", 2):
                place = Moved(parts[0], t, sections[s].Topics.Length);
                field = DraftField.Topic(s, place, "name");
                return edit with { Draft = With(draft, s, sections[s] with { Topics = Move(sections[s].Topics, t, place) }) };
            case ("add-subtopic", 2):
                TopicDraft topic = sections[s].Topics[t];
                field = DraftField.Subtopic(s, t, topic.Subtopics.Length, "name");
                return edit with { Draft = With(draft, s, t, topic with { Subtopics = topic.Subtopics.Add(new("", "")) }) };
            case ("remove-subtopic", 3):
                topic = sections[s].Topics[t];
                field = DraftField.Topic(s, t, "name");
                return edit.Changed(With(draft, s, t, topic with { Subtopics = topic.Subtopics.RemoveAt(p) }), Removed("subtopic", topic.Subtopics[p].Name));
            case ("up-subtopic" or "down-subtopic", 3):
                topic = sections[s].Topics[t];
                place = Moved(parts[0], p, topic.Subtopics.Length);
                field = DraftField.Subtopic(s, t, place, "name");
                return edit with { Draft = With(draft, s, t, topic with { Subtopics = Move(topic.Subtopics, p, place) }) };
            case ("undo", 0) when edit.Steps.Count > 0:
                field = DraftField.Sections;
                return edit with { Draft = edit.Steps[0].Before, Steps = edit.Steps.RemoveAt(0) };
            default:
                return null;
        }
    }

    private static string Removed(string kind, string name) => string.IsNullOrWhiteSpace(name) ? $"A {kind} was removed." : $"The {kind} ‘{name.Trim()}’ was removed.";

    private static int Moved(string action, int from, int count) => Math.Clamp(action.StartsWith("up", StringComparison.Ordinal) ? from - 1 : from + 1, 0, count - 1);

    private static ImmutableArray<T> Move<T>(ImmutableArray<T> rows, int from, int to) => rows.RemoveAt(from).Insert(to, rows[from]);

    private static ExamDraft With(ExamDraft draft, int s, SectionDraft section) => draft with { Sections = draft.Sections.SetItem(s, section) };

    private static ExamDraft With(ExamDraft draft, int s, int t, TopicDraft topic) => With(draft, s, draft.Sections[s] with { Topics = draft.Sections[s].Topics.SetItem(t, topic) });
}
