using System.Collections.Immutable;

namespace Homestretch.Core.Evidence;

/// <summary>What 'how sure' marks say of one topic: luck, and what is held to be right but is wrong.</summary>
/// <param name="Topic">The topic.</param>
/// <param name="Right">Right answers with a mark.</param>
/// <param name="GuessedRight">Those marked no surer than guessing.</param>
/// <param name="SureWrong">Items answered wrongly by somebody who was sure, with the test they stood in.</param>
/// <remarks>They do not enter the likelihood: what a mark is worth cannot be told from one person's few marks (docs/measurement.md).</remarks>
public sealed record TopicMarks(string Topic, int Right, int GuessedRight, ImmutableArray<(string Test, string Item)> SureWrong)
{
    /// <summary>Sure from here up: the word "sure" in an evidence file.</summary>
    public const double SureFrom = 2.0 / 3;

    // One such answer is a slip; so few are worth a sentence.
    private const int WorthSaying = 2;

    private const int MostNamed = 5;

    /// <summary>What is worth saying, in sentences.</summary>
    public IEnumerable<string> Notes
    {
        get
        {
            if (SureWrong.Length >= WorthSaying)
            {
                yield return $"{Topic}: {SureWrong.Length} wrong answers were given as sure ({Named()}). What is known wrongly is not looked up: begin there.";
            }

            if (GuessedRight >= WorthSaying && 2 * GuessedRight >= Right)
            {
                yield return $"{Topic}: {GuessedRight} of {Right} right answers were guesses by your own mark. The standing allows for usual luck only, so the topic may be weaker than it looks.";
            }
        }
    }

    /// <summary>The marks of all answers that count, one entry per topic with marks, in the order of their first answers.</summary>
    /// <param name="attempts">One person's attempts.</param>
    /// <param name="guessChance">For a topic's name, the chance of guessing right.</param>
    public static ImmutableArray<TopicMarks> Of(IEnumerable<Attempt> attempts, Func<string, double> guessChance) =>
    [
        .. attempts
            .SelectMany(a => a.Observations.OfType<ItemResponse>().Where(r => r is { Omitted: false, Sureness: not null }).Select(r => (Test: a.Name, Response: r)))
            .GroupBy(m => m.Response.Topic, StringComparer.Ordinal)
            .Select(g => new TopicMarks(
                g.Key,
                g.Count(m => m.Response.Correct),
                g.Count(m => m.Response.Correct && m.Response.Sureness <= guessChance(g.Key)),
                [.. g.Where(m => !m.Response.Correct && m.Response.Sureness >= SureFrom - 1e-9).Select(m => (m.Test, m.Response.Item))])),
    ];

    private string Named() => string.Join(
        "; ",
        SureWrong.Take(MostNamed).GroupBy(w => w.Test, StringComparer.Ordinal).Select(g => $"{g.Key}: {(g.Count() == 1 ? "item" : "items")} {string.Join(", ", g.Select(w => w.Item))}"))
        + (SureWrong.Length > MostNamed ? $" and {SureWrong.Length - MostNamed} more" : "");
}
