using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

using Homestretch.Files.QuizItems;
using Homestretch.Store;

using NodaTime;

namespace Homestretch.Web.Quizzing;

/// <summary>A short quiz of items: which ones, and what an answer to one is.</summary>
public static class ItemQuiz
{
    /// <summary>Fewest items of a quiz, where there are so many.</summary>
    public const int Fewest = 3;

    /// <summary>Most items of a quiz.</summary>
    public const int Most = 10;

    // What stands between identifiers in a form and in a cell; identifiers may hold anything else.
    private const char Between = '\n';

    /// <summary>The items of a quiz: those never answered first, then those whose last answer is longest ago; in an order of its own for every quiz.</summary>
    /// <param name="items">All items of the exam.</param>
    /// <param name="evidence">The case's evidence, oldest first.</param>
    /// <param name="topic">The topic.</param>
    /// <param name="count">How many.</param>
    /// <param name="quiz">What tells this quiz from others: the same number gives the same quiz.</param>
    public static ImmutableArray<QuizItem> Choose(ImmutableArray<QuizItem> items, IEnumerable<EvidenceRow> evidence, string topic, int count, long quiz)
    {
        ArgumentNullException.ThrowIfNull(evidence);
        Dictionary<string, long> last = new(StringComparer.OrdinalIgnoreCase);
        foreach (EvidenceRow row in evidence.Where(r => r.Kind == "quiz" && r.Item.Length > 0))
        {
            last[row.Item] = row.Id;
        }

        return [.. items.Where(i => i.Topic == topic)
            .OrderBy(i => last.GetValueOrDefault(i.Id))
            .ThenBy(i => Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(string.Create(CultureInfo.InvariantCulture, $"{quiz} {i.Id}")))), StringComparer.Ordinal)
            .Take(Math.Clamp(count, Fewest, Most))];
    }

    /// <summary>The options that were chosen, as the column <c>chosen</c> holds them; null where one is no option of the item, or there are several and it takes one.</summary>
    /// <param name="item">The item.</param>
    /// <param name="chosen">Identifiers of options.</param>
    public static string? Chosen(QuizItem item, IReadOnlyCollection<string> chosen)
    {
        ArgumentNullException.ThrowIfNull(item);
        ArgumentNullException.ThrowIfNull(chosen);
        return chosen.Any(c => item.Options.All(o => o.Id != c)) || (chosen.Count > 1 && !item.TakesSeveral) ? null : Joined(item, o => chosen.Contains(o.Id));
    }

    /// <summary>The right answer, as the column <c>key</c> holds it.</summary>
    public static string Key(QuizItem item) => Joined(item, o => o.IsCorrect);

    /// <summary>Whether an option is among those of a cell.</summary>
    public static bool Holds(string cell, QuizOption option)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(option);
        return cell.Split('+').Contains(option.Id);
    }

    /// <summary>Identifiers of items as a form carries them.</summary>
    public static string Names(IEnumerable<QuizItem> items) => string.Join(Between, items.Select(i => i.Id));

    /// <summary>The items of a form, in its order; null where one is no item of the exam or of another topic, one comes twice, or there are too many or none.</summary>
    public static ImmutableArray<QuizItem>? Named(ImmutableArray<QuizItem> items, string names)
    {
        ArgumentNullException.ThrowIfNull(names);
        string[] asked = names.ReplaceLineEndings("\n").Split(Between, StringSplitOptions.RemoveEmptyEntries);
        QuizItem?[] found = [.. asked.Select(name => items.FirstOrDefault(i => i.Id == name))];
        return asked.Length is 0 or > Most || found.Contains(null) || asked.Distinct().Count() < asked.Length || found.DistinctBy(i => i!.Topic).Count() > 1 ? null : [.. found.OfType<QuizItem>()];
    }

    /// <summary>The attempt's name: the moment at which the quiz was put together.</summary>
    public static string Attempt(long quiz, DateTimeZone zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        return "quiz " + Instant.FromUnixTimeSeconds(quiz).InZone(zone).ToString("uuuu-MM-dd HH:mm:ss", CultureInfo.InvariantCulture);
    }

    private static string Joined(QuizItem item, Func<QuizOption, bool> which) => string.Join('+', item.Options.Where(which).Select(o => o.Id));
}
