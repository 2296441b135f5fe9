using System.Collections.Immutable;

using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement;

/// <summary>Flags answers given in less than a tenth of the item's mean time (<see cref="RapidAnswers"/>).</summary>
public static class RapidGuessing
{
    /// <summary>A person with less effort than this did not take the test seriously throughout (Wise &amp; Kong 2005).</summary>
    public const double EffortFrom = 0.9;

    /// <summary>The report; thresholds are refused where there are no times.</summary>
    public static RapidGuessingReport Of(ItemScores scores)
    {
        ArgumentNullException.ThrowIfNull(scores);
        double[] all = [.. scores.Persons.SelectMany(p => p.Answers).Where(a => a.Answered).Select(a => a.Seconds).OfType<double>()];

        // Items with too few times of their own take the times of all items.
        double? overall = RapidAnswers.Threshold(all);
        ImmutableArray<Statistic> thresholds = [.. Enumerable.Range(0, scores.Items.Length).Select(j =>
        {
            double[] own = [.. scores.Persons.Select(p => p.Answers[j]).Where(a => a.Answered).Select(a => a.Seconds).OfType<double>()];
            return (RapidAnswers.Threshold(own) ?? overall) is { } threshold ? Statistic.Of(threshold) : Statistic.Refused("Too few times were recorded.");
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
