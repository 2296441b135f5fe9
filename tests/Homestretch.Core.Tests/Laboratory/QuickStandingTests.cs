using System.Collections.Immutable;

using Homestretch.Core.Evidence;
using Homestretch.Core.Forecasting;
using Homestretch.Core.Laboratory;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

using NodaTime;

namespace Homestretch.Core.Tests.Laboratory;

/// <summary>The laboratory's standing against the one people get.</summary>
public sealed class QuickStandingTests
{
    private static readonly LocalDate _start = new(2026, 1, 5);

    public static TheoryData<string, int> Cases()
    {
        TheoryData<string, int> cases = [];
        foreach (string scenario in new[] { "as-assumed", "retaker-bands" })
        {
            for (int candidate = 0; candidate < 8; candidate++)
            {
                cases.Add(scenario, candidate);
            }
        }

        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void PassChancesAreTheProductions(string name, int candidate)
    {
        ScenarioWorld world = new(Scenarios.All.Single(s => s.Name == name), 3, 5);
        CandidateCourse course = CandidateCourse.Draw(world, candidate);
        ExamWorld exam = course.Setting.World;
        LocalDate start = course.Setting.Time.From;
        ImmutableArray<Attempt> first = [course.FirstEvidence];
        int topics = exam.Curves.Length;
        Attempt Quiz(int day, int lucky) => new(
            "", "quiz", AttemptKind.Quiz, start.PlusDays(day), [.. exam.Exam.Topics.Select((t, i) => (Observation)TopicCount.Exact(t.Name, (i + lucky) % 3 == 0 ? exam.QuizItems[i] : exam.QuizItems[i] / 2, exam.QuizItems[i]))]);
        StudyHistory study = new(exam.Exam, [.. Enumerable.Range(0, 12).Select(i => new StudySession(
            "", exam.Exam.Topics[i % Math.Min(4, topics)].Name, start.PlusDays(i), 100, i < 4 ? StudyKind.Teaching : StudyKind.PracticeItems))]);
        QuickStanding quick = new(exam, world.Likelihoods);

        Compare(first, StudyHistory.None, start);
        Compare([.. first, Quiz(6, candidate)], StudyHistory.None, start.PlusDays(7));
        Compare(first, study, start.PlusDays(12));
        Compare([.. first, Quiz(6, candidate), Quiz(13, candidate + 1)], study, start.PlusDays(18));

        void Compare(ImmutableArray<Attempt> tests, StudyHistory done, LocalDate day)
        {
            CandidateStanding expected = StandingCalculator.Calculate(exam.Exam, tests, day, study: done);
            CandidateStanding actual = quick.Standing([.. tests], done, day);
            ScoreModel expectedModel = new(expected);

            // The quick posterior is of abilities without study, so all study is still to be added.
            ScoreModel actualModel = new(actual with { Study = StudyHistory.None });
            Assert.Equal(expectedModel.PassChance(expectedModel.EffortNow), actualModel.PassChance(expectedModel.EffortNow), 4e-3);
            double[] more = [.. expectedModel.EffortNow.Select((e, t) => e + (t % 3))];
            Assert.Equal(expectedModel.PassChance(more), actualModel.PassChance(more), 6e-3);
            for (int t = 0; t < topics; t++)
            {
                Assert.Equal(expected.Topics[t].Level.Mean, actual.Topics[t].Level.Mean, 4e-3);
            }
        }
    }

    [Fact]
    public void SomebodyWhoIsKnownIsKnown()
    {
        ScenarioWorld world = new(Scenarios.All[0], 3, 1);
        CandidateCourse course = CandidateCourse.Draw(world, 0);
        ExamWorld exam = course.Setting.World;
        CandidateStanding standing = new QuickStanding(exam, world.Likelihoods).Known(course.Person.Abilities, course.Person.Rate, StudyHistory.None, _start);

        for (int t = 0; t < exam.Curves.Length; t++)
        {
            Assert.Equal(exam.Curves[t].Chance(course.Person.Abilities[t]), standing.Topics[t].Level.Mean, 1e-12);
        }

        Assert.Equal(course.Person.Rate, Assert.Single(standing.Posterior.RateGroups).Rate);
    }
}
