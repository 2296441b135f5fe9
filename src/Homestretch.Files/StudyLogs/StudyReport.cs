using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Learning;
using Homestretch.Core.Measurement;
using Homestretch.Core.Standing;
using Homestretch.Files.Pictures;

namespace Homestretch.Files.StudyLogs;

/// <summary>What a person's study log says and what follows from it.</summary>
/// <param name="Done">The study and what it changes.</param>
/// <param name="Rate">How fast the person learns; null where there was no study.</param>
/// <param name="Basis">How fast people are taken to learn before their own tests are seen.</param>
/// <param name="Notes">What else to know about the log.</param>
public sealed record StudyReport(StudyDone Done, RateStanding? Rate, LearningBasis Basis, ImmutableArray<string> Notes)
{
    // Tests that have removed less of the doubt than this have said next to nothing.
    private const double HardlyInformed = 0.05;

    // Beyond these ratios to the assumed rate, people read a difference.
    private const double Somewhat = 1.15;
    private const double Clearly = 1.5;

    /// <summary>What to tell people, in sentences that fit both "I" and "she".</summary>
    public ImmutableArray<string> Sentences(Exam exam)
    {
        ArgumentNullException.ThrowIfNull(exam);
        List<string> sentences = [StudySentence()];
        if (Rate is not null)
        {
            sentences.Add(RateSentence(exam, Rate));
        }

        if (Basis.People > 1)
        {
            sentences.Add(Basis.Reason);
        }

        return [.. sentences, .. Notes];
    }

    private string StudySentence()
    {
        if (Done.Sessions == 0)
        {
            return "No study has been logged so far.";
        }

        string now = Figures.Percent(Done.Now.PassChance);
        string without = Figures.Percent(Done.Without.PassChance);
        string topics = string.Join(", ", Done.Topics.OrderByDescending(t => t.Minutes).Select(t => $"{t.Topic.Name} {Figures.Duration(t.Minutes)}"));
        return $"Study so far: {Figures.Plural(Done.Sessions, "session")}, {Figures.Duration(Done.Minutes)} ({topics}). "
            + $"As things stand it is worth {Figures.ItemGain(Done.Now.ExpectedCorrect - Done.Without.ExpectedCorrect)}"
            + (now == without ? $"; the pass chance is {now} with it or without it." : $": without it the pass chance would be {without}, not {now}.");
    }

    private string RateSentence(Exam exam, RateStanding rate)
    {
        LearningAssumptions learning = Basis.Learning;
        string FirstHour(double at) => (RateStanding.FirstHour(exam, learning, at) * 100).ToString("0.0", CultureInfo.InvariantCulture);
        string usual = Basis.Prior is null ? "assumed" : "usual in this cohort";
        string tests = Figures.Plural(rate.Tests, "test");
        if (rate.Tests == 0)
        {
            return $"No test has been taken after study yet, so learning counts as fast as {usual}: a first hour on an average topic adds about {FirstHour(rate.Median)} points. A short quiz on what was studied says whether that is right.";
        }

        double ratio = rate.Median / rate.AssumedMedian;
        if (rate.Informed < HardlyInformed && ratio is < Somewhat and > 1 / Somewhat)
        {
            return $"The {tests} taken after study {(rate.Tests == 1 ? "says" : "say")} next to nothing about the speed of learning yet, so it counts about as fast as {usual}: a first hour on an average topic adds about {FirstHour(rate.Median)} points.";
        }

        string pace = ratio switch
        {
            >= Clearly => "clearly faster than",
            >= Somewhat => "somewhat faster than",
            <= 1 / Clearly => "clearly slower than",
            <= 1 / Somewhat => "somewhat slower than",
            _ => "about as fast as",
        };
        string doubt = rate.Informed switch
        {
            < HardlyInformed => "so few tests hardly narrow that down, and it is still very uncertain",
            < 0.5 => $"{Figures.Percent(rate.Informed)} of the doubt is gone, and it is still uncertain",
            _ => $"{Figures.Percent(rate.Informed)} of the doubt is gone, so it is fairly sure",
        };
        string sentence = $"Going by the {tests} taken after study, learning is {pace} {usual}: a first hour on an average topic adds about {FirstHour(rate.Median)} points ({usual}: {FirstHour(rate.AssumedMedian)}), "
            + $"nine times in ten between {FirstHour(rate.Low)} and {FirstHour(rate.High)}; {doubt}.";
        if (Done.AtAssumedRate is { } other && Figures.Percent(other.PassChance) is var then && then != Figures.Percent(Done.Now.PassChance))
        {
            sentence += $" Had learning been taken as {usual}, the pass chance now would read {then}.";
        }

        return sentence;
    }
}
