using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;

namespace Homestretch.Core.Evidence;

/// <summary>How a person took the tests: which answers speak of what the person knows, and what the rest says of pace.</summary>
/// <param name="Counted">The attempts without the answers that say nothing of ability.</param>
/// <param name="Rapid">Answers left out because they came too fast to have been read.</param>
/// <param name="RapidBelow">Seconds below which an answer was taken as too fast; null where too few times are known.</param>
/// <param name="NotReached">Blanks at the end of a test, left out because time ran out before them.</param>
/// <param name="Marks">What 'how sure' marks say, by topic; empty where nobody asked.</param>
/// <param name="Pace">The person's pace; null where neither times nor a test cut short tell it.</param>
/// <remarks>A rapid answer is a guess whatever the person knows, so leaving it out is what its likelihood says (effort-moderated scoring, Wise &amp; DeMars 2006).
/// An item passed over, with a later one answered, counts as wrong.</remarks>
public sealed record TestTaking(ImmutableArray<Attempt> Counted, int Rapid, double? RapidBelow, int NotReached, ImmutableArray<TopicMarks> Marks, WorkingPace? Pace)
{
    /// <summary>No tests.</summary>
    public static TestTaking None { get; } = new([], 0, null, 0, [], null);

    /// <summary>What there is to know about the tests beside the answers, in sentences.</summary>
    public IEnumerable<string> Notes
    {
        get
        {
            if (Rapid > 0)
            {
                yield return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{(Rapid == 1 ? "1 answer" : $"{Rapid} answers")} in under {RapidBelow:0.#} seconds {(Rapid == 1 ? "was" : "were")} left out: too fast for the item to have been read.");
            }

            if (NotReached > 0)
            {
                yield return $"{(NotReached == 1 ? "1 item" : $"{NotReached} items")} left blank at the end {(NotReached == 1 ? "was" : "were")} not counted as wrong: "
                    + $"{(NotReached == 1 ? "it tells" : "they tell")} of time running short, not of what is known.";
            }

            foreach (string note in Marks.SelectMany(m => m.Notes))
            {
                yield return note;
            }
        }
    }

    /// <summary>Reads how the tests were taken.</summary>
    /// <param name="exam">The exam whose topics the answers name.</param>
    /// <param name="attempts">One person's attempts, answers in the order in which the items came.</param>
    public static TestTaking Of(Exam exam, ImmutableArray<Attempt> attempts)
    {
        ArgumentNullException.ThrowIfNull(exam);
        ImmutableArray<Attempt>.Builder counted = ImmutableArray.CreateBuilder<Attempt>(attempts.Length);
        double? threshold = RapidAnswers.Threshold([.. attempts.SelectMany(a => a.Observations).OfType<ItemResponse>().Where(r => !r.Omitted).Select(r => r.Seconds).OfType<double>()]);
        List<double> times = [];
        int rapid = 0;
        int notReached = 0;
        WorkingPace? cutShort = null;
        foreach (Attempt attempt in attempts.OrderBy(a => a.Date))
        {
            ItemResponse[] responses = [.. attempt.Observations.OfType<ItemResponse>()];

            // Nobody takes a short quiz against the clock: blanks there are items passed over.
            bool[] blankEnd = attempt.Kind == AttemptKind.Quiz ? new bool[responses.Length] : BlankAnswers.NotReached(exam, responses);
            HashSet<ItemResponse> leftOut = new(ReferenceEqualityComparer.Instance);
            for (int i = 0; i < responses.Length; i++)
            {
                ItemResponse response = responses[i];
                if (blankEnd[i])
                {
                    notReached++;
                    leftOut.Add(response);
                }
                else if (!response.Omitted && response.Seconds < threshold)
                {
                    rapid++;
                    leftOut.Add(response);
                }
                else if (response.Seconds is { } seconds)
                {
                    times.Add(seconds);
                }
            }

            if (responses.Length >= WorkingPace.FewestItems)
            {
                int unreached = blankEnd.Count(b => b);
                cutShort = unreached == 0 ? null : WorkingPace.FromReach(responses.Length - unreached, responses.Length);
            }

            counted.Add(leftOut.Count == 0 ? attempt : attempt with { Observations = [.. attempt.Observations.Where(o => o is not ItemResponse r || !leftOut.Contains(r))] });
        }

        Dictionary<string, double> guessing = exam.Topics.ToDictionary(t => t.Name, t => t.Section.GuessChance, StringComparer.Ordinal);
        return new TestTaking(counted.ToImmutable(), rapid, threshold, notReached, TopicMarks.Of(counted, t => guessing[t]), WorkingPace.FromTimes(times) ?? cutShort);
    }
}
