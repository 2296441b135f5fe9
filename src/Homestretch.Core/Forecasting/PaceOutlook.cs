using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;

namespace Homestretch.Core.Forecasting;

/// <summary>What the time limits of the exam mean for a person whose pace is known.</summary>
/// <param name="Pace">The pace.</param>
/// <param name="Sections">The sections with a time limit, in order; one or more.</param>
/// <param name="PassChanceInTime">Pass chance if every item were reached, 0 to 1.</param>
/// <param name="Cost">What the time limits take from the pass chance, 0 to 1.</param>
public sealed record PaceOutlook(WorkingPace Pace, ImmutableArray<SectionPace> Sections, double PassChanceInTime, double Cost)
{
    private const double Likely = 0.9;

    // A smaller difference is not worth a figure.
    private const double LeastCost = 0.005;

    /// <summary>Whether the last item of some section may well not be reached.</summary>
    public bool MayRunShort => Sections.Any(IsShort);

    /// <summary>Whether the last items are reached, and what it costs if not, as a sentence to the person.</summary>
    public string Sentence
    {
        get
        {
            string pace = Pace.Relative
                ? "If that test gave as much time per item as the exam, you"
                : string.Create(CultureInfo.InvariantCulture, $"At your pace (about {Math.Exp(Pace.LogMean):0} seconds an item) you");
            if (!MayRunShort)
            {
                return $"{pace} will most likely reach the last item{(Sections.Length > 1 ? " of every section with a time limit" : "")}.";
            }

            SectionPace[] open = [.. Sections.Where(IsShort)];
            string items = Joined([.. open.Select(s => $"{(Reached(s) == s.Reach.Items ? "perhaps not quite all" : $"about item {Reached(s)}")} of {s.Reach.Items} in {s.Section.Name}")]);
            string rest = open.All(s => s.Section.Options == 0) ? "leaving the rest unanswered" : "answering the rest by chance";
            return $"{pace} would reach {items}; {rest} costs {Points()}.";
        }
    }

    /// <summary>The outlook; null where no section has a time limit or the pace is not known.</summary>
    /// <param name="exam">The exam.</param>
    /// <param name="pace">The person's pace, if known.</param>
    /// <param name="passChance">Pass chance with the time limits.</param>
    /// <param name="passChanceInTime">Pass chance without.</param>
    internal static PaceOutlook? Of(Exam exam, WorkingPace? pace, double passChance, double passChanceInTime)
    {
        ImmutableArray<SectionPace> sections = pace is null
            ? []
            : [.. exam.Sections.Where(s => s.Minutes is not null).Select(s => new SectionPace(s, Measurement.Pace.Of(pace, s.ScoredItems + s.UnscoredItems, s.Minutes!.Value)))];
        return sections.IsEmpty ? null : new PaceOutlook(pace!, sections, passChanceInTime, Math.Max(0, passChanceInTime - passChance));
    }

    private static bool IsShort(SectionPace section) => section.Reach.FinishChance.Value < Likely;

    private static int Reached(SectionPace section) => (int)Math.Round(section.Reach.ExpectedReached.Value ?? 0, MidpointRounding.AwayFromZero);

    private string Points() => Cost < LeastCost
        ? "hardly any pass chance"
        : string.Create(CultureInfo.InvariantCulture, $"about {Math.Round(Cost * 100, MidpointRounding.AwayFromZero):0} {(Cost < 0.015 ? "point" : "points")} of pass chance");

    private static string Joined(string[] parts) => parts.Length == 1 ? parts[0] : $"{string.Join(", ", parts[..^1])} and {parts[^1]}";
}
