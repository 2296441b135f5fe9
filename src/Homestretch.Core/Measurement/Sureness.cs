using System.Collections.Immutable;
using System.Globalization;

using Homestretch.Core.Evidence;

namespace Homestretch.Core.Measurement;

/// <summary>Lucky guesses and false certainty from 'how sure' marks.</summary>
/// <remarks>A mark no higher than the chance of guessing is a guess. Among guesses, each wrong one lets expect guess / (1 - guess) lucky ones: the
/// classical correction for guessing (Holzinger 1924, from memory), applied only where the person said it was a guess.</remarks>
public static class Sureness
{
    private const int LevelCount = 4;
    private const double FalseCertaintyFrom = 0.15;
    private const int FewestMarks = 10;

    /// <summary>The report on everyone who gave marks.</summary>
    public static SurenessReport Of(ItemScores scores)
    {
        ArgumentNullException.ThrowIfNull(scores);
        int[] answers = new int[LevelCount];
        int[] right = new int[LevelCount];
        ImmutableArray<PersonSureness>.Builder persons = ImmutableArray.CreateBuilder<PersonSureness>();
        foreach (PersonAnswers person in scores.Persons)
        {
            (TestItem Item, ItemAnswer Answer)[] marked =
                [.. scores.Items.Zip(person.Answers).Where(a => a.Second is { Answered: true, Sureness: not null })];
            foreach ((_, ItemAnswer answer) in marked)
            {
                int level = Math.Min(LevelCount - 1, (int)(answer.Sureness!.Value * LevelCount));
                answers[level]++;
                right[level] += answer.Credit;
            }

            if (marked.Length > 0)
            {
                persons.Add(OfPerson(person.Person, marked));
            }
        }

        int guessedRight = persons.Sum(p => p.GuessedRight);
        double lucky = persons.Sum(p => p.Lucky);
        return new SurenessReport(
            [.. Enumerable.Range(0, LevelCount).Where(l => answers[l] > 0)
                .Select(l => new SurenessLevel((double)l / LevelCount, (l + 1.0) / LevelCount, answers[l], right[l]))],
            persons.ToImmutable(),
            persons.Count == 0
                ? "Nobody was asked how sure they were, so lucky guesses cannot be told."
                : guessedRight == 0
                    ? "No correct answer was marked as a guess."
                    : string.Create(CultureInfo.InvariantCulture, $"{guessedRight} correct answers were marked as guesses; about {lucky:0} of them were luck."));
    }

    private static PersonSureness OfPerson(string person, (TestItem Item, ItemAnswer Answer)[] marked)
    {
        int right = marked.Sum(m => m.Answer.Credit);
        (TestItem Item, ItemAnswer Answer)[] guesses = [.. marked.Where(m => m.Answer.Sureness!.Value <= m.Item.GuessChance)];
        int guessedRight = guesses.Sum(g => g.Answer.Credit);
        double lucky = Math.Min(guessedRight, guesses.Where(g => g.Answer.Credit == 0).Sum(g => g.Item.GuessChance / (1 - g.Item.GuessChance)));
        int sureWrong = marked.Count(m => m.Answer.Credit == 0 && m.Answer.Sureness!.Value >= TopicMarks.SureFrom - 1e-9);
        double gap = marked.Average(m => m.Answer.Sureness!.Value) - ((double)right / marked.Length);
        List<string> remarks = [];
        if (lucky >= 1)
        {
            remarks.Add(string.Create(CultureInfo.InvariantCulture, $"about {lucky:0} of {right} correct answers were lucky guesses"));
        }

        if (sureWrong > 0)
        {
            remarks.Add($"{sureWrong} wrong answer{(sureWrong == 1 ? " was" : "s were")} given as sure");
        }

        if (marked.Length >= FewestMarks && gap >= FalseCertaintyFrom)
        {
            remarks.Add("surer than the answers justify");
        }

        return new PersonSureness(
            person,
            marked.Length,
            right,
            guesses.Length,
            guessedRight,
            lucky,
            sureWrong,
            Statistic.Of(gap),
            remarks.Count == 0 ? "Marks and answers agree." : char.ToUpperInvariant(remarks[0][0]) + string.Join("; ", remarks)[1..] + ".");
    }
}
