using System.Globalization;

using Homestretch.Core.Deciding;

using NodaTime;
using NodaTime.Text;

namespace Homestretch.Web.Assuming;

/// <summary>What a person asks on the page of decisions: fees, deadlines, the pass chance that is good enough, one more test.</summary>
/// <param name="Fields">The fields of the form of terms, with what was typed and why it cannot be used.</param>
/// <param name="ItemsField">The field of the items of a quiz.</param>
/// <param name="Terms">What can be used of it.</param>
/// <param name="Test">The test asked about: <see cref="PracticeExam"/>, or a topic's name; null where none was asked about.</param>
/// <param name="QuizItems">Items of a quiz.</param>
public sealed record DecisionQuestion(IReadOnlyList<AssumedField> Fields, AssumedField ItemsField, SittingTerms Terms, string? Test, int QuizItems)
{
    /// <summary>Asks about another full practice exam.</summary>
    public const string PracticeExam = "practice-exam";

    /// <summary>Weeks after the exam day that are looked at.</summary>
    public const int Weeks = 4;

    private const decimal MostMoney = 1_000_000;
    private const int UsualQuizItems = 10;
    private const int MostQuizItems = 100;

    /// <summary>Reads the address.</summary>
    /// <param name="query">A field's value by name; null or empty where it is not there.</param>
    public static DecisionQuestion Read(Func<string, string?> query)
    {
        ArgumentNullException.ThrowIfNull(query);
        List<AssumedField> fields = [];
        (AssumedField goal, int target) = Number("goal", "Pass chance that is good enough", 80, 1, 99, "percent", "%");
        fields.Add(goal);
        decimal? retake = Money("retake-fee", "Fee for sitting again");
        decimal? postpone = Money("postpone-fee", "Fee for moving the date");
        LocalDate? until = Day("postpone-until", "Can be moved until");
        LocalDate? last = Day("last-date", "May be sat until");
        (AssumedField itemsField, int items) = Number("items", "Items of a quiz", UsualQuizItems, 1, MostQuizItems, "items", "");
        string? test = query("test") is { Length: > 0 and <= 200 } asked ? asked : null;
        SittingTerms terms = new() { Target = target / 100.0, RetakeFee = retake, PostponeFee = postpone, PostponeUntil = until, LastDate = last };
        return new DecisionQuestion(fields, itemsField, terms, test, items);

        (AssumedField Field, int Used) Number(string name, string label, int own, int least, int most, string what, string unit)
        {
            string text = Typed(name) is { Length: > 0 } typed ? typed : Text(own);
            bool good = int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int value) && value >= least && value <= most;
            string? problem = good ? null : $"This must be a whole number of {what} from {least} to {most}; '{Shown(text)}' is not.";
            return (new(name, label, text, Text(own), unit, Text(least), Text(most), "1", problem), good ? value : own);
        }

        decimal? Money(string name, string label)
        {
            string text = Typed(name);
            decimal value = 0;
            bool good = text.Length == 0 || (decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out value) && value <= MostMoney);
            fields.Add(new(name, label, text, "", "", "0", Text((int)MostMoney), "any", good ? null : $"This must be an amount from 0 to {MostMoney}, such as 120 or 99.50; '{Shown(text)}' is not."));
            return good && text.Length > 0 ? value : null;
        }

        LocalDate? Day(string name, string label)
        {
            string text = Typed(name);
            ParseResult<LocalDate>? day = text.Length == 0 ? null : LocalDatePattern.Iso.Parse(text);
            fields.Add(new(name, label, text, "", "", "", "", "", day is null or { Success: true } ? null : $"This must be a date such as 2026-12-16; '{Shown(text)}' is not."));
            return day is { Success: true } ? day.Value : null;
        }

        string Typed(string name) => query(name)?.Trim() ?? "";
    }

    private static string Shown(string text) => text.Length <= 40 ? text : text[..40] + "…";

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
