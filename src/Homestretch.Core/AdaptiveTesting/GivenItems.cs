using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.AdaptiveTesting;

/// <summary>Which items of a bank have been given, to a person and to others.</summary>
/// <param name="Answered">Items that the person has answered, in any attempt on any day.</param>
/// <param name="Sitting">Those of the diagnostic in progress.</param>
/// <param name="OtherPeople">Other people who have answered an item of the bank.</param>
/// <param name="Shown">For each item that others have answered, how many of them.</param>
public sealed record GivenItems(
    ImmutableHashSet<BankItem> Answered,
    ImmutableArray<BankItem> Sitting,
    int OtherPeople,
    ImmutableDictionary<BankItem, int> Shown)
{
    /// <summary>Nothing has been given to anybody.</summary>
    public static GivenItems None { get; } = new([], [], 0, ImmutableDictionary<BankItem, int>.Empty);

    /// <summary>Counts what evidence shows.</summary>
    /// <param name="bank">The bank.</param>
    /// <param name="own">The person's attempts.</param>
    /// <param name="others">Attempts of other people.</param>
    /// <param name="day">The diagnostic in progress is what the person answered of the bank in diagnostics on this day; on another day a new one begins.</param>
    public static GivenItems Count(ItemBank bank, IEnumerable<Attempt> own, IEnumerable<Attempt> others, LocalDate day)
    {
        ArgumentNullException.ThrowIfNull(bank);
        ArgumentNullException.ThrowIfNull(own);
        ArgumentNullException.ThrowIfNull(others);
        Attempt[] attempts = [.. own];
        BankItem[][] byPerson =
        [
            .. others
                .GroupBy(a => a.Candidate, StringComparer.OrdinalIgnoreCase)
                .Select(person => person.SelectMany(a => ItemsOf(bank, a)).Distinct().ToArray())
                .Where(items => items.Length > 0),
        ];
        return new GivenItems(
            [.. attempts.SelectMany(a => ItemsOf(bank, a))],
            [.. attempts.Where(a => a.Kind == AttemptKind.Diagnostic && a.Date == day).SelectMany(a => ItemsOf(bank, a)).Distinct()],
            byPerson.Length,
            byPerson.SelectMany(items => items).CountBy(item => item).ToImmutableDictionary());
    }

    /// <summary>Share of the other people who have been given an item, 0 to 1; 0 where there are none.</summary>
    public double Exposure(BankItem item) => OtherPeople == 0 ? 0 : (double)Shown.GetValueOrDefault(item) / OtherPeople;

    private static IEnumerable<BankItem> ItemsOf(ItemBank bank, Attempt attempt)
        => attempt.Observations.OfType<ItemResponse>().Select(r => bank.Find(r.Topic, r.Item, attempt.Name)).OfType<BankItem>();
}
