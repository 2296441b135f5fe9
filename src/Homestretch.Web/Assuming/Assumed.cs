using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Planning;
using Homestretch.Core.Planning.Calendar;
using Homestretch.Files.Documents;
using Homestretch.Web.Cases;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Assuming;

/// <summary>What a person assumes on a case's page: the case's own figures, changed by what the address says. Whatever cannot be
/// used keeps the case's own figure, and its field says why.</summary>
/// <param name="Exam">The exam with the assumed cut scores.</param>
/// <param name="Free">The free time for the assumed hours a week.</param>
/// <param name="ExamDay">The assumed day of the exam.</param>
/// <param name="Policy">The policy whose blocks are shown.</param>
/// <param name="Fields">The form, in its order.</param>
/// <param name="PolicyProblem">Why the policy in the address cannot be used; null where it can.</param>
public sealed record Assumed(
    Exam Exam,
    FreeTime Free,
    LocalDate ExamDay,
    Policy Policy,
    ImmutableArray<AssumedField> Fields,
    string? PolicyProblem)
{
    /// <summary>Address name of the exam day.</summary>
    public const string DayField = "day";

    /// <summary>Address name of the hours a week.</summary>
    public const string HoursField = "hours";

    /// <summary>Address name of the policy.</summary>
    public const string PolicyField = "policy";

    /// <summary>The policies that can be chosen, by their names in the address.</summary>
    public static ImmutableArray<(string Name, Policy Policy)> Policies { get; } =
        [(Words.Of(Policy.Optimised), Policy.Optimised), (Words.Of(Policy.PracticeOrder), Policy.PracticeOrder)];

    /// <summary>Whether exam day, hours or a cut score differ from the case's own.</summary>
    public bool Changed => Fields.Any(f => f.Changed);

    /// <summary>Everything that is wrong with the address, for a summary.</summary>
    public IEnumerable<string> Problems => Fields.Select(f => f.Problem).Append(PolicyProblem).OfType<string>();

    /// <summary>Reads the assumptions from an address.</summary>
    /// <param name="prepared">The case.</param>
    /// <param name="query">Gives the text of a field in the address, or null where it has none.</param>
    public static Assumed Read(PreparedCase prepared, Func<string, string?> query)
    {
        ArgumentNullException.ThrowIfNull(prepared);
        ArgumentNullException.ThrowIfNull(query);
        ImmutableArray<AssumedField>.Builder fields = ImmutableArray.CreateBuilder<AssumedField>();
        string? Asked(string name) => string.IsNullOrWhiteSpace(query(name)) ? null : query(name)!.Trim();

        LocalDate day = Day(prepared, Asked(DayField), fields);
        FreeTime free = Hours(prepared.Case.Free, Asked(HoursField), fields);
        Exam exam = prepared.Case.Exam;
        foreach (CutPlace place in CutPlace.In(prepared.Case.Exam))
        {
            if (Cut(place, Asked(place.Field), fields) is { } cut)
            {
                exam = place.Change(exam, cut);
            }
        }

        string? policyText = Asked(PolicyField);
        Policy policy = Policy.Optimised;
        string? policyProblem = null;
        if (policyText is not null)
        {
            (string Name, Policy Policy) found = Policies.FirstOrDefault(p => p.Name == policyText);
            policyProblem = found.Name is null
                ? $"The order of study must be {string.Join(" or ", Policies.Select(p => p.Name))}; '{Shortened(policyText)}' is neither."
                : null;
            policy = found.Name is null ? policy : found.Policy;
        }

        return new(exam, free, day, policy, fields.ToImmutable(), policyProblem);
    }

    /// <summary>The part of an address that leads back to these assumptions: <c>?day=...</c>, or nothing where all is the case's own.</summary>
    public string Query
    {
        get
        {
            IEnumerable<string> parts = Fields.Where(f => f.Changed).Select(f => $"{f.Name}={Uri.EscapeDataString(f.Text)}");
            if (Policy != Policy.Optimised)
            {
                parts = parts.Append($"{PolicyField}={Words.Of(Policy)}");
            }

            string joined = string.Join('&', parts);
            return joined.Length == 0 ? "" : "?" + joined;
        }
    }

    private static LocalDate Day(PreparedCase prepared, string? asked, ImmutableArray<AssumedField>.Builder fields)
    {
        LocalDate own = prepared.Case.ExamDay;
        LocalDate least = prepared.Today.PlusDays(1);
        LocalDate most = prepared.LastExamDay;
        LocalDate day = own;
        string? problem = null;
        if (asked is not null && asked != LocalDatePattern.Iso.Format(own))
        {
            ParseResult<LocalDate> parsed = LocalDatePattern.Iso.Parse(asked);
            if (parsed.Success && parsed.Value >= least && parsed.Value <= most)
            {
                day = parsed.Value;
            }
            else
            {
                problem = $"The exam day must be a date from {LocalDatePattern.Iso.Format(least)} to {LocalDatePattern.Iso.Format(most)}; "
                    + $"'{Shortened(asked)}' is not.";
            }
        }

        fields.Add(new(
            DayField,
            "Exam day",
            asked ?? LocalDatePattern.Iso.Format(own),
            LocalDatePattern.Iso.Format(own),
            "",
            LocalDatePattern.Iso.Format(least),
            LocalDatePattern.Iso.Format(most),
            "1",
            problem));
        return day;
    }

    private static FreeTime Hours(FreeTime own, string? asked, ImmutableArray<AssumedField>.Builder fields)
    {
        string ownText = HoursText(FreeTimeScaling.WeeklyMinutes(own));

        // Rounded down to what the form's steps can reach, but never below what the person has already.
        double most = Math.Max(Math.Floor(FreeTimeScaling.MostWeeklyMinutes(own) / 30.0) / 2, FreeTimeScaling.WeeklyMinutes(own) / 60.0);
        FreeTime free = own;
        string? problem = null;
        if (asked is not null && asked != ownText)
        {
            if (Number(asked) is { } hours && hours >= 0 && hours <= most)
            {
                free = FreeTimeScaling.ToWeeklyMinutes(own, (int)Math.Round(hours * 60));
            }
            else
            {
                problem = string.Create(
                    CultureInfo.InvariantCulture,
                    $"Hours a week must be a number from 0 to {most:0.#}; '{Shortened(asked)}' is not.");
            }
        }

        fields.Add(new(HoursField, "Study hours a week", asked ?? ownText, ownText, "hours", "0", most.ToString("0.#", CultureInfo.InvariantCulture), "0.5", problem));
        return free;
    }

    private static CutScore? Cut(CutPlace place, string? asked, ImmutableArray<AssumedField>.Builder fields)
    {
        CutFigure figure = CutFigure.Of(place.Cut, place.Items);
        CutScore? cut = null;
        string? problem = null;
        if (asked is not null && asked != figure.Text)
        {
            if (Number(asked) is { } value && value >= figure.Least && value <= figure.Most && (!figure.WholeOnly || value == Math.Floor(value)))
            {
                cut = CutFigure.With(place.Cut, value);
            }
            else
            {
                problem = $"The cut score of {place.Name} must be {figure.Accepted} ({figure.Unit}); '{Shortened(asked)}' is not.";
            }
        }

        fields.Add(new(
            place.Field,
            place.Section is null ? "Cut score, total" : $"Cut score, {place.Name}",
            asked ?? figure.Text,
            figure.Text,
            figure.Unit,
            figure.Least.ToString("0.##", CultureInfo.InvariantCulture),
            figure.Most.ToString("0.##", CultureInfo.InvariantCulture),
            "1",
            problem));
        return cut;
    }

    private static string HoursText(int minutes) => (minutes / 60.0).ToString("0.#", CultureInfo.InvariantCulture);

    private static double? Number(string text)
        => double.TryParse(text.Replace(',', '.'), NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out double value)
            && double.IsFinite(value)
            ? value
            : null;

    private static string Shortened(string text) => text.Length <= 40 ? text : text[..40] + "…";
}
