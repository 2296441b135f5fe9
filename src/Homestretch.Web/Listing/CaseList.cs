using System.Collections.Immutable;

using Homestretch.Core.Rooms;
using Homestretch.Files.Pictures;
using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Listing;

/// <summary>The coach's list on a day: those who need the coach first, everybody else below, fifty a page.</summary>
/// <param name="All">Cases in use, whatever the filter.</param>
/// <param name="NeedyOfAll">How many of all need the coach.</param>
/// <param name="Found">Cases that the filter lets through.</param>
/// <param name="Page">The page, from 1.</param>
/// <param name="Pages">How many pages there are, at least 1.</param>
/// <param name="Needy">Those on this page who need the coach, the most pressing first.</param>
/// <param name="Others">The others on this page, the nearest exam first.</param>
public sealed record CaseList(int All, int NeedyOfAll, int Found, int Page, int Pages, ImmutableArray<CaseLine> Needy, ImmutableArray<CaseLine> Others)
{
    /// <summary>Lines on one page.</summary>
    public const int PerPage = 50;

    /// <summary>The answer to "who needs me today?" in a sentence.</summary>
    public string Sentence => (All, NeedyOfAll) switch
    {
        (1, 0) => "Your one candidate does not need you today",
        (1, _) => "Your one candidate needs you today",
        (_, 0) => $"None of your {All} candidates needs you today",
        (_, 1) => $"1 of {All} needs you today",
        _ => $"{NeedyOfAll} of {All} need you today",
    };

    /// <summary>The list of a day.</summary>
    /// <param name="cases">Every case in use.</param>
    /// <param name="today">The day.</param>
    /// <param name="examKey">Only cases of this exam; empty for all.</param>
    /// <param name="name">Only people whose name holds this, capital letters aside; empty for all.</param>
    /// <param name="page">Which page, from 1; brought into range.</param>
    public static CaseList Of(IReadOnlyList<ListedCase> cases, LocalDate today, string examKey, string name, int page)
    {
        ArgumentNullException.ThrowIfNull(cases);
        CaseLine[] all = [.. cases.Select(c => new CaseLine(c, NeedRules.On(today, c.Figures)))];
        CaseLine[] found =
        [
            .. all.Where(l => (examKey.Length == 0 || l.Case.ExamKey == examKey) && l.Case.Candidate.Contains(name, StringComparison.OrdinalIgnoreCase))
                .OrderBy(l => l.State.Order).ThenBy(l => l.Case.Candidate, StringComparer.OrdinalIgnoreCase).ThenBy(l => l.Case.Key, StringComparer.Ordinal),
        ];
        int pages = Math.Max(1, (found.Length + PerPage - 1) / PerPage);
        int shown = Math.Clamp(page, 1, pages);
        CaseLine[] lines = [.. found.Skip((shown - 1) * PerPage).Take(PerPage)];
        return new(
            all.Length,
            all.Count(l => !l.State.Needs.IsEmpty),
            found.Length,
            shown,
            pages,
            [.. lines.Where(l => !l.State.Needs.IsEmpty)],
            [.. lines.Where(l => l.State.Needs.IsEmpty)]);
    }

    /// <summary>A reason in words.</summary>
    public static string Words(Need need) => need.Kind switch
    {
        NeedKind.NoResult => $"The exam was {(need.Amount == 1 ? "yesterday" : $"{need.Amount} days ago")} and no official result is recorded.",
        NeedKind.NoPlan => "There is no plan: too little free time before the exam, or a file to mend.",
        NeedKind.BelowEven => $"The exam is {(need.Amount == 0 ? "today" : need.Amount == 1 ? "tomorrow" : $"in {need.Amount} days")} and the pass chance is below even.",
        NeedKind.Fallen => $"The pass chance fell by {need.Amount} points within a week.",
        NeedKind.Missed => $"{need.Amount} sessions were missed in the last 7 days.",
        NeedKind.Silent => $"Nothing has been heard for {need.Amount} days.",
        NeedKind.NoLink => "No personal link has been made yet.",
        _ => throw new ArgumentOutOfRangeException(nameof(need), need, "There are no other reasons."),
    };

    /// <summary>The change of the pass chance in words, or nothing where it has not moved by a whole point.</summary>
    public static string Change(CandidateState state)
    {
        ArgumentNullException.ThrowIfNull(state);
        return state.PassChance is null || Math.Abs(state.Change) < 0.005 ? "" : Figures.Points(state.Change);
    }
}
