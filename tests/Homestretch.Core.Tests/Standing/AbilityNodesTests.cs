using System.Collections.Immutable;

using Homestretch.Core.Blueprints;
using Homestretch.Core.Evidence;
using Homestretch.Core.Learning;
using Homestretch.Core.Standing;

namespace Homestretch.Core.Tests.Standing;

/// <summary>Fewer nodes stand for all of them, for each rate of learning.</summary>
public sealed class AbilityNodesTests
{
    private static readonly Exam Small = SampleExams.OneSection(new PercentCut(65), SampleExams.Topic("A", 50), SampleExams.Topic("B", 50));

    [Theory]
    [InlineData(0.4, 1e-7)]
    [InlineData(1, 1e-6)]
    [InlineData(1.3, 1e-2)]
    public void Fewer_nodes_weigh_what_their_group_does_and_keep_its_mean(double spacing, double negligible)
    {
        AbilityPosterior posterior = AfterStudyAndAQuiz();
        Assert.True(posterior.RateGroups.Length > 1);
        foreach (RateGroup group in posterior.RateGroups)
        {
            int[] all = [.. Enumerable.Range(group.First, group.Count)];
            AbilityNode[] some = AbilityNodes.Some(posterior, group, spacing, negligible);
            double weight = all.Sum(k => posterior.Weights[k]);
            Assert.InRange(some.Length, 2, group.Count - 1);
            Assert.Equal(weight, some.Sum(n => n.Weight), 1e-12);
            Assert.Equal(all.Sum(k => posterior.Weights[k] * posterior.Nodes[k]) / weight, some.Sum(n => n.Weight * posterior.Nodes[n.Index]) / weight, negligible);
        }
    }

    // Topics that were not asked about after study are worked out once for all rates; the quiz on the first one must still move its rate.
    [Fact]
    public void A_quiz_after_study_says_how_fast_somebody_learns_and_one_on_another_topic_does_not()
    {
        RateStanding own = Rate(Small, "A");
        RateStanding other = Rate(Small, "B");
        Assert.Equal(1, own.Tests);
        Assert.True(own.Median > 1.05 * LearningAssumptions.Default.RatePerHour, $"{own.Median}");
        Assert.Equal(0, other.Tests);
        Assert.Equal(LearningAssumptions.Default.RatePerHour, other.Median, 1e-3);
    }

    private static RateStanding Rate(Exam exam, string quizOn) => After(exam, quizOn).Rate!;

    private static AbilityPosterior AfterStudyAndAQuiz() => After(Small, "A").Posterior;

    private static CandidateStanding After(Exam exam, string quizOn)
    {
        StudyHistory study = new(exam, [new StudySession("Someone", "A", SampleExams.Today.PlusDays(1), 240, StudyKind.Teaching)]);
        ImmutableArray<Attempt> attempts =
        [
            .. SampleExams.Diagnostic(("A", 5, 12), ("B", 7, 14)),
            new Attempt("Someone", "quiz", AttemptKind.Quiz, SampleExams.Today.PlusDays(2), [TopicCount.Exact(quizOn, 12, 12)]),
        ];
        return StandingCalculator.Calculate(exam, attempts, SampleExams.Today.PlusDays(3), study: study);
    }
}
