using System.Collections.Immutable;

using CsCheck;

using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Words;

using MathNet.Numerics.Integration;

using NodaTime;

namespace Homestretch.Core.Tests.Words;

/// <summary>The chance of knowing a word: against the formula in docs/model.md, and which way it moves.</summary>
public sealed class WordMemoryTests
{
    private static readonly LocalDate _noted = new(2026, 11, 2);
    private static readonly WordAssumptions _assumed = WordAssumptions.Default;

    internal static readonly Gen<Word> Words =
        from days in Gen.Int[0, 40].HashSet[0, 6]
        from outcomes in Gen.Int[0, 2].Array[6]
        select new Word("flux", _noted)
        {
            OwnDefinition = "what keeps solder from oxidising",
            Answers = [.. days.Order().Select((day, i) => new RecallAnswer(_noted.PlusDays(day), (RecallOutcome)outcomes[i]))],
        };

    /// <summary>Adaptive integration over the sticking k, log-normal, each answer weighed with the chance it had (docs/model.md, Words).</summary>
    [Fact]
    public void ItIsTheIntegralOverHowWellTheWordSticks()
    {
        Word word = Answered((3, RecallOutcome.DidNotKnow), (5, RecallOutcome.Partly), (11, RecallOutcome.Knew));
        StudyMoment[] met = [new(0, 1, StudyKind.Teaching), new(3, 1, StudyKind.Retrieval), new(5, 1, StudyKind.Retrieval), new(11, 1, StudyKind.Retrieval), new(17, 1, StudyKind.Retrieval)];
        double Known(double k, int moments, int day) => 1 - Math.Exp(-k * LearningAssumptions.Default.Retained(met.AsSpan(0, moments), day));
        double Weight(double z)
        {
            double k = Math.Exp(_assumed.StickingLogSd * z);
            double partly = Known(k, 2, 5);
            return Math.Exp(-z * z / 2) * (1 - Known(k, 1, 3)) * Math.Sqrt(partly * (1 - partly)) * Known(k, 3, 11);
        }

        double exact = GaussLegendreRule.Integrate(z => Weight(z) * Known(Math.Exp(_assumed.StickingLogSd * z), 5, 30), -8, 8, 256) / GaussLegendreRule.Integrate(Weight, -8, 8, 256);

        Assert.Equal(exact, new WordMemory(word, _assumed).Chance(_noted.PlusDays(30), _noted.PlusDays(17)), 1e-4);
    }

    [Fact]
    public void AWordWithoutDefinitionIsNotKnown()
        => Assert.Equal(0, new WordMemory(new Word("flux", _noted), _assumed).Chance(_noted.PlusDays(1)));

    [Fact]
    public void WhoKnowsAWordBeforeMeetingItSaysNothingOfHowItSticks()
    {
        WordMemory knew = new(new Word("flux", _noted) { Answers = [new(_noted, RecallOutcome.Knew)] }, _assumed);
        WordMemory not = new(new Word("flux", _noted) { Answers = [new(_noted, RecallOutcome.DidNotKnow)] }, _assumed);

        Assert.Equal(knew.Chance(_noted.PlusDays(9)), not.Chance(_noted.PlusDays(9)));
    }

    /// <summary>The weights of a long row of answers are below the smallest number.</summary>
    [Fact]
    public void ThousandsOfAnswersStillGiveAChance()
    {
        Word never = new("flux", _noted) { OwnDefinition = "?", Answers = [.. Enumerable.Range(0, 3000).Select(i => new RecallAnswer(_noted.PlusDays(i), RecallOutcome.DidNotKnow))] };

        Assert.InRange(new WordMemory(never, _assumed).Chance(_noted.PlusDays(3001)), 0, 1);
    }

    [Fact]
    public void AWordThatIsMissedAgainAndAgainIsExpectedLessAndLess()
    {
        double[] next = [.. Enumerable.Range(1, 10).Select(n => new WordMemory(Answered([.. Enumerable.Range(1, n).Select(d => (d, RecallOutcome.DidNotKnow))]), _assumed).Chance(_noted.PlusDays(n + 1)))];

        Assert.All(next.Zip(next.Skip(1)), pair => Assert.True(pair.Second < pair.First));
        Assert.Equal([0.49, 0.34], new[] { next[0], next[4] }.Select(c => Math.Round(c, 2)));
    }

    [Fact]
    public void ASecondRecallOnTheSameDayChangesNothing()
        => Assert.Equal(
            new WordMemory(Answered((3, RecallOutcome.DidNotKnow)), _assumed).Chance(_noted.PlusDays(20)),
            new WordMemory(Answered((3, RecallOutcome.DidNotKnow), (3, RecallOutcome.Knew)), _assumed).Chance(_noted.PlusDays(20)));

    [Fact]
    public void ABetterAnswerNeverLowersTheChance() => Gen.Select(Words, Gen.Int[0, 5], Gen.Int[1, 90]).Sample((word, which, after) =>
    {
        if (word.Answers.IsEmpty)
        {
            return;
        }

        int place = which % word.Answers.Length;
        double[] chances = [.. Enum.GetValues<RecallOutcome>().Select(o => new WordMemory(word with { Answers = word.Answers.SetItem(place, word.Answers[place] with { Outcome = o }) }, _assumed).Chance(_noted.PlusDays(40 + after)))];

        Assert.True(chances[0] >= chances[1] - 1e-12 && chances[1] >= chances[2] - 1e-12, string.Join(" ", chances));
    });

    [Fact]
    public void OneMoreRecallNeverLowersTheChanceAndALaterExamNeverRaisesIt() => Gen.Select(Words, Gen.Int[41, 80].HashSet[0, 4], Gen.Int[41, 80], Gen.Int[81, 200]).Sample((word, days, more, exam) =>
    {
        WordMemory memory = new(word, _assumed);
        LocalDate[] recalls = [.. days.Where(d => d != more).Order().Select(d => _noted.PlusDays(d))];
        LocalDate[] withMore = [.. days.Append(more).Distinct().Order().Select(d => _noted.PlusDays(d))];
        double chance = memory.Chance(_noted.PlusDays(exam), recalls);

        Assert.InRange(chance, 0, 1);
        Assert.True(memory.Chance(_noted.PlusDays(exam), withMore) >= chance);
        Assert.True(memory.Chance(_noted.PlusDays(exam + 1), recalls) <= chance);
    });

    [Fact]
    public void AnswersAreForetoldAsOftenAsTheyComeTrue()
    {
        // What is expected of the next answer, weighed with its outcomes, is what is expected without it: the mean of a posterior is the prior.
        Word word = Answered((2, RecallOutcome.Knew), (6, RecallOutcome.DidNotKnow));
        LocalDate next = _noted.PlusDays(10);
        LocalDate exam = _noted.PlusDays(25);
        WordMemory before = new(word, _assumed);
        double knows = before.Chance(next);
        double After(RecallOutcome outcome) => new WordMemory(word with { Answers = word.Answers.Add(new(next, outcome)) }, _assumed).Chance(exam);

        Assert.Equal(before.Chance(exam, next), (knows * After(RecallOutcome.Knew)) + ((1 - knows) * After(RecallOutcome.DidNotKnow)), 1e-12);
    }

    private static Word Answered(params ReadOnlySpan<(int Day, RecallOutcome Outcome)> answers)
    {
        ImmutableArray<RecallAnswer>.Builder list = ImmutableArray.CreateBuilder<RecallAnswer>();
        foreach ((int day, RecallOutcome outcome) in answers)
        {
            list.Add(new(_noted.PlusDays(day), outcome));
        }

        return new Word("flux", _noted) { OwnDefinition = "what keeps solder from oxidising", Answers = list.ToImmutable() };
    }
}
