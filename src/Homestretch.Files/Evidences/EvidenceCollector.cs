using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Files.Sheets;

using NodaTime;

namespace Homestretch.Files.Evidences;

/// <summary>Gathers rows of one or several files into attempts and notes where they contradict each other.</summary>
internal sealed class EvidenceCollector(ProblemList problems)
{
    private readonly Dictionary<(string Candidate, string Attempt), AttemptDraft> drafts = [];
    private readonly Dictionary<string, string> spellings = new(StringComparer.OrdinalIgnoreCase);
    private readonly List<AttemptDraft> inOrder = [];
    private readonly Dictionary<string, (FormDifference Form, string Text, RowPlace Place)> forms = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Adds what a row says about its attempt, and its observation if that could be read.</summary>
    public void Add(RowPlace place, string candidate, string attempt, AttemptKind? kind, LocalDate? date, Observation? observation)
    {
        spellings.TryAdd(candidate, candidate);
        (string, string) key = (candidate.ToUpperInvariant(), attempt.ToUpperInvariant());
        if (!drafts.TryGetValue(key, out AttemptDraft? draft))
        {
            draft = new AttemptDraft(spellings[candidate], attempt);
            drafts.Add(key, draft);
            inOrder.Add(draft);
        }

        if (kind is { } k)
        {
            if (draft.Kind is { } known && known != k)
            {
                problems.Add(place.File, place.Line, $"column 'kind': the attempt '{Cell.Show(attempt)}' of {Cell.Show(candidate)} is '{KindNames.NameOf(known)}' {draft.KindPlace.Seen(place)} and '{KindNames.NameOf(k)}' here; give two tests two names.");
            }
            else if (draft.Kind is null)
            {
                draft.Kind = k;
                draft.KindPlace = place;
            }
        }

        if (date is { } d)
        {
            if (draft.Date is { } known && known != d)
            {
                problems.Add(place.File, place.Line, $"column 'date': the attempt '{Cell.Show(attempt)}' of {Cell.Show(candidate)} has the date {known:uuuu-MM-dd} {draft.DatePlace.Seen(place)} and {d:uuuu-MM-dd} here; give two sittings two names.");
            }
            else if (draft.Date is null)
            {
                draft.Date = d;
                draft.DatePlace = place;
            }
        }

        if (observation is not null && !IsRepeated(draft, place, observation))
        {
            draft.Observations.Add(observation);
        }
    }

    /// <summary>Notes how much easier a test is than the exam, which holds for everybody who took it.</summary>
    public void AddForm(RowPlace place, string attempt, string text, FormDifference form)
    {
        if (!forms.TryGetValue(attempt, out (FormDifference Form, string Text, RowPlace Place) known))
        {
            forms.Add(attempt, (form, text, place));
        }
        else if (known.Form != form)
        {
            problems.Add(place.File, place.Line, $"column 'against exam': the test '{Cell.Show(attempt)}' is '{Cell.Show(known.Text)}' {known.Place.Seen(place)} and '{Cell.Show(text)}' here; it holds for the whole test and for everybody, so write it alike, or give two tests two names.");
        }
    }

    /// <summary>The attempts; only meaningful when there was no problem.</summary>
    public ImmutableArray<Attempt> Attempts() =>
        [.. inOrder.Select(d => new Attempt(d.Candidate, d.Name, d.Kind!.Value, d.Date!.Value, [.. d.Observations])
        {
            Form = forms.TryGetValue(d.Name, out (FormDifference Form, string Text, RowPlace Place) known) ? known.Form : null,
        })];

    private bool IsRepeated(AttemptDraft draft, RowPlace place, Observation observation)
    {
        if (observation is ItemResponse item && !draft.Items.TryAdd(item.Item, place))
        {
            problems.Add(place.File, place.Line, $"column 'item': item '{Cell.Show(item.Item)}' of the attempt '{Cell.Show(draft.Name)}' was answered {draft.Items[item.Item].Seen(place)} already; an item counts once in an attempt.");
            return true;
        }

        bool isCount = observation is TopicCount;
        foreach ((string? subtopic, bool wasCount, RowPlace seen) in draft.Seen(observation.Topic))
        {
            bool overlap = subtopic is null || observation.Subtopic is null || subtopic == observation.Subtopic;
            if (overlap && (isCount || wasCount))
            {
                string what = isCount && wasCount ? "the answers are counted" : "the answers are given both item by item and as a count:";
                problems.Add(place.File, place.Line, $"column 'topic': '{Cell.Show(observation.Topic)}' in the attempt '{Cell.Show(draft.Name)}': {what} {seen.Seen(place)} already, and would count twice; keep one of them, or give two sittings two names.");
                return true;
            }
        }

        draft.Note(observation.Topic, observation.Subtopic, isCount, place);
        return false;
    }

    private sealed class AttemptDraft(string candidate, string name)
    {
        private readonly Dictionary<string, List<(string? Subtopic, bool IsCount, RowPlace Place)>> seen = new(StringComparer.Ordinal);

        public string Candidate { get; } = candidate;

        public string Name { get; } = name;

        public AttemptKind? Kind { get; set; }

        public RowPlace KindPlace { get; set; }

        public LocalDate? Date { get; set; }

        public RowPlace DatePlace { get; set; }

        public List<Observation> Observations { get; } = [];

        public Dictionary<string, RowPlace> Items { get; } = new(StringComparer.OrdinalIgnoreCase);

        public List<(string? Subtopic, bool IsCount, RowPlace Place)> Seen(string topic) => seen.TryGetValue(topic, out var list) ? list : [];

        public void Note(string topic, string? subtopic, bool isCount, RowPlace place)
        {
            if (!seen.TryGetValue(topic, out var list))
            {
                seen[topic] = list = [];
            }

            // One entry for each subtopic and form is enough to find an overlap.
            if (!list.Exists(e => e.Subtopic == subtopic && e.IsCount == isCount))
            {
                list.Add((subtopic, isCount, place));
            }
        }
    }
}
