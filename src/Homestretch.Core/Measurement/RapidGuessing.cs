using System.Collections.Immutable;

namespace Homestretch.Core.Measurement;

/// <summary>Flags answers given in less than a tenth of the item's mean time, and never more than ten seconds (Wise &amp; Ma 2012, the
/// normative threshold at 10 %).</summary>
public static class RapidGuessing
{
    /// <summary>Share of the mean time below which an answer is rapid.</summary>
    public const double ThresholdShare = 0.1;

    /// <summary>No answer that took this many seconds is rapid.</summary>
    public const double MostSeconds = 10;

    /// <summary>A person with less effort than this did not take the test seriously throughout (Wise &amp; Kong 2005).</summary>
    public const double EffortFrom = 0.9;

    /// <summary>Items with fewer times take the mean time of all items.</summary>
    public const int FewestTimes = 5;

    /// <summary>The report; thresholds are refused where there are no times.</summary>
    public static RapidGuessingReport Of(ItemScores scores)
    {
        ArgumentNullException.ThrowIfNull(scores);
        double[] all = [.. scores.Persons.SelectMany(p => p.Answers).Where(a => a.Answered).Select(a => a.Seconds).OfType<double>()];
        double? overall = all.Length >= FewestTimes ? all.Average() : null;
        ImmutableArray<Statistic> thresholds = [.. Enumerable.Range(0, scores.Items.Length).Select(j =>
        {
            double[] own = [.. scores.Persons.Select(p => p.Answers[j]).Where(a => a.Answered).Select(a => a.Seconds).OfType<double>()];
            double? mean = own.Length >= FewestTimes ? own.Average() : overall;
            return mean is { } m ? Statistic.Of(Math.Min(MostSeconds, ThresholdShare * m)) : Statistic.Refused("Too few times were recorded.");
        })];
        ImmutableArray<PersonEffort> persons = [.. scores.Persons.Select(p => Effort(p, thresholds))];
        int rapid = persons.Sum(p => p.Rapid);
        string[] doubtful = [.. persons.Where(p => p.Doubtful).Select(p => p.Person)];
        string summary = all.Length == 0
            ? "No times were recorded, so rapid guesses cannot be told."
            : rapid == 0
                ? "No answer was given faster than its item could be read."
                : doubtful.Length == 0
                    ? $"{rapid} of {all.Length} timed answers came faster than the item could be read; nobody did it often."
                    : $"{rapid} of {all.Length} timed answers came faster than the item could be read; the results of {string.Join(", ", doubtful)} say less than they seem to.";
        return new RapidGuessingReport(thresholds, persons, summary);
    }

    private static PersonEffort Effort(PersonAnswers person, ImmutableArray<Statistic> thresholds)
    {
        int timed = 0;
        int rapid = 0;
        int right = 0;
        for (int j = 0; j < thresholds.Length; j++)
        {
            ItemAnswer answer = person.Answers[j];
            if (answer.Answered && answer.Seconds is { } seconds && thresholds[j].Value is { } threshold)
            {
                timed++;
                if (seconds < threshold)
                {
                    rapid++;
                    right += answer.Credit;
                }
            }
        }

        Statistic effort = timed == 0 ? Statistic.Refused("No times were recorded.") : Statistic.Of(1 - ((double)rapid / timed));
        return new PersonEffort(person.Person, timed, rapid, right, effort, effort.Value < EffortFrom);
    }
}
