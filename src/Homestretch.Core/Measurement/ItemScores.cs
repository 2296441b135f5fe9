using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement;

/// <summary>Who answered what: people by items, with options, times and sureness where they are known.</summary>
public sealed class ItemScores
{
    /// <param name="items">Items in the order of the test; at least one, with different labels.</param>
    /// <param name="persons">People, each with one answer per item; may be empty.</param>
    /// <exception cref="ArgumentException">Labels repeat, or a person's answers do not match the items.</exception>
    public ItemScores(ImmutableArray<TestItem> items, ImmutableArray<PersonAnswers> persons)
    {
        if (items.IsDefaultOrEmpty)
        {
            throw new ArgumentException("A test has at least one item.", nameof(items));
        }

        if (items.Select(i => i.Label).Distinct(StringComparer.OrdinalIgnoreCase).Count() != items.Length)
        {
            throw new ArgumentException("Item labels must be unique in a test.", nameof(items));
        }

        foreach (PersonAnswers person in persons)
        {
            if (person.Answers.Length != items.Length)
            {
                throw new ArgumentException($"{person.Person} has {person.Answers.Length} answers to {items.Length} items.", nameof(persons));
            }

            if (person.Answers.Any(a => a.Seconds is not null and not (> 0 and < double.PositiveInfinity)))
            {
                throw new ArgumentException($"{person.Person} has a time that is not above zero.", nameof(persons));
            }

            if (person.Answers.Any(a => a.Sureness is not null and not (>= 0 and <= 1)))
            {
                throw new ArgumentException($"{person.Person} has a sureness outside 0 to 1.", nameof(persons));
            }
        }

        Items = items;
        Persons = persons;
    }

    /// <summary>Items in the order of the test.</summary>
    public ImmutableArray<TestItem> Items { get; }

    /// <summary>People in the order of the evidence.</summary>
    public ImmutableArray<PersonAnswers> Persons { get; }

    /// <summary>One answer.</summary>
    public ItemAnswer this[int person, int item] => Persons[person].Answers[item];

    /// <summary>Whether everyone was given every item.</summary>
    public bool Complete => Persons.All(p => p.Complete);

    /// <summary>Topics in the order in which items name them.</summary>
    public ImmutableArray<string> Topics => [.. Items.Select(i => i.Topic).Distinct(StringComparer.Ordinal)];

    /// <summary>The same people on some of the items; null where no item is left.</summary>
    public ItemScores? Only(Func<TestItem, bool> wanted)
    {
        ArgumentNullException.ThrowIfNull(wanted);
        int[] kept = [.. Enumerable.Range(0, Items.Length).Where(i => wanted(Items[i]))];
        return kept.Length == 0
            ? null
            : new ItemScores(
                [.. kept.Select(i => Items[i])],
                [.. Persons.Select(p => p with { Answers = [.. kept.Select(i => p.Answers[i])] })]);
    }

    /// <summary>The answers of everyone who sat one test, matched by item label.</summary>
    /// <param name="exam">The exam whose topics the answers name.</param>
    /// <param name="attempts">Sittings of one test; a person's answers stand in the order in which the items came. Counts by topic are
    /// passed over. Where one person sat it twice, the first sitting counts: a second one sees known items.</param>
    /// <returns>Null where no attempt has answers item by item.</returns>
    /// <remarks>Blanks at the end of a person's test are not reached, other blanks omitted. Where each section's items stand together, each
    /// section has its own end. An item that a person's rows do not name was not given to that person.</remarks>
    public static ItemScores? FromAttempts(Exam exam, IEnumerable<Attempt> attempts)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ArgumentNullException.ThrowIfNull(attempts);
        Dictionary<string, ExamTopic> topics = exam.Topics.ToDictionary(t => t.Name, StringComparer.Ordinal);
        List<(string Person, ImmutableArray<ItemResponse> Responses)> sittings = [];
        HashSet<string> seen = new(StringComparer.OrdinalIgnoreCase);
        foreach (Attempt attempt in attempts.OrderBy(a => a.Date))
        {
            ImmutableArray<ItemResponse> responses = [.. attempt.Observations.OfType<ItemResponse>()];
            if (responses.Length > 0 && seen.Add(attempt.Candidate))
            {
                sittings.Add((attempt.Candidate, responses));
            }
        }

        if (sittings.Count == 0)
        {
            return null;
        }

        List<string> order = MergedOrder(sittings.Select(s => s.Responses));
        Dictionary<string, int> columns = new(StringComparer.OrdinalIgnoreCase);
        ILookup<string, ItemResponse> byItem = sittings.SelectMany(s => s.Responses).ToLookup(r => r.Item, StringComparer.OrdinalIgnoreCase);
        ImmutableArray<TestItem>.Builder items = ImmutableArray.CreateBuilder<TestItem>(order.Count);
        foreach (string label in order)
        {
            columns.Add(label, items.Count);
            ItemResponse first = byItem[label].First();
            items.Add(new TestItem(
                first.Item,
                first.Topic,
                byItem[label].Select(r => r.Key).FirstOrDefault(k => k is not null),
                topics[first.Topic].Section.GuessChance));
        }

        return new ItemScores(items.MoveToImmutable(), [.. sittings.Select(s => new PersonAnswers(s.Person, Answers(exam, s.Responses, columns)))]);
    }

    /// <summary>The sittings that hold answers item by item, by the test's name without regard to case, in the order in which tests first come.</summary>
    public static IGrouping<string, Attempt>[] ByTest(IEnumerable<Attempt> attempts)
        => [.. attempts.Where(a => a.Observations.Any(o => o is ItemResponse)).GroupBy(a => a.Name, StringComparer.OrdinalIgnoreCase)];

    /// <summary>Where sittings of one name cannot be one test: an item with two topics or two keys. Null where they can.</summary>
    public static string? Contradiction(IEnumerable<Attempt> attempts)
    {
        ArgumentNullException.ThrowIfNull(attempts);
        Dictionary<string, (string Person, ItemResponse Response)> first = new(StringComparer.OrdinalIgnoreCase);
        foreach (Attempt attempt in attempts)
        {
            foreach (ItemResponse response in attempt.Observations.OfType<ItemResponse>())
            {
                if (!first.TryGetValue(response.Item, out (string Person, ItemResponse Response) known))
                {
                    first.Add(response.Item, (attempt.Candidate, response));
                    continue;
                }

                if (known.Response.Topic != response.Topic)
                {
                    return $"item '{response.Item}' is on '{known.Response.Topic}' for {known.Person} and on '{response.Topic}' for {attempt.Candidate}";
                }

                if (known.Response.Key is { } key && response.Key is { } other && !string.Equals(key, other, StringComparison.OrdinalIgnoreCase))
                {
                    return $"the key of item '{response.Item}' is '{key}' for {known.Person} and '{other}' for {attempt.Candidate}";
                }

                if (known.Response.Key is null && response.Key is not null)
                {
                    first[response.Item] = (attempt.Candidate, response);
                }
            }
        }

        return null;
    }

    // A new item goes behind the one that came before it on the same person's test, so that forms which share items keep their order.
    private static List<string> MergedOrder(IEnumerable<ImmutableArray<ItemResponse>> sittings)
    {
        List<string> order = [];
        HashSet<string> known = new(StringComparer.OrdinalIgnoreCase);
        foreach (ImmutableArray<ItemResponse> responses in sittings)
        {
            int place = -1;
            foreach (ItemResponse response in responses)
            {
                if (known.Add(response.Item))
                {
                    order.Insert(++place, response.Item);
                }
                else
                {
                    place = order.FindIndex(l => string.Equals(l, response.Item, StringComparison.OrdinalIgnoreCase));
                }
            }
        }

        return order;
    }

    private static ImmutableArray<ItemAnswer> Answers(Exam exam, ImmutableArray<ItemResponse> responses, Dictionary<string, int> columns)
    {
        ItemAnswer[] row = new ItemAnswer[columns.Count];
        bool[] notReached = BlankAnswers.NotReached(exam, responses);
        for (int i = 0; i < responses.Length; i++)
        {
            ItemResponse response = responses[i];
            ItemScore score = response.Correct ? ItemScore.Right
                : !response.Omitted ? ItemScore.Wrong
                : notReached[i] ? ItemScore.NotReached
                : ItemScore.Omitted;
            row[columns[response.Item]] = new ItemAnswer(score, response.Chosen, response.Seconds, response.Sureness);
        }

        return [.. row];
    }
}
