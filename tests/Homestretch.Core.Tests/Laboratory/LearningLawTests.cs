using Homestretch.Core.Evidence;
using Homestretch.Core.Laboratory;
using Homestretch.Core.Learning;

namespace Homestretch.Core.Tests.Laboratory;

/// <summary>How simulated candidates learn and forget, against the formulas in docs/evidence.md, by hand.</summary>
public sealed class LearningLawTests
{
    private static readonly ExamWorld _exam = ExamWorld.Draw(Scenarios.All[0], 1, 0);

    [Fact]
    public void ThePowerLawIsThePlannersOwn()
    {
        Learner learner = new PowerLaw().Start(PersonAt(0), _exam);
        learner.Study(0, 1, 1.5, StudyKind.Teaching);
        learner.Study(3, 1, 1, StudyKind.PracticeItems);

        LearningAssumptions known = LearningAssumptions.Default;
        double retained = known.Retained([new StudyMoment(0, 1.5, StudyKind.Teaching), new StudyMoment(3, 1, StudyKind.PracticeItems)], 10);
        Assert.Equal(0.2 * known.Effective(_exam.Breadth[1] * retained), learner.Gain(1, 10), 1e-12);
        Assert.Equal(0, learner.Gain(0, 10));
    }

    [Fact]
    public void PracticeBringsLittleBeforeTeaching()
    {
        double hour = GainOf(-1, 0, (0, 1, StudyKind.PracticeItems));
        double taught = GainOf(-1, 0, (0, 1, StudyKind.Teaching));
        double strong = GainOf(0.5, 0, (0, 1, StudyKind.PracticeItems));

        // 1 - exp(-0.2 x) against 1 - exp(-x) of the same distance to the ceiling, x = rate x breadth / ceiling.
        double x = 0.2 * _exam.Breadth[0] / 2.5;
        Assert.Equal(3.5 * (1 - Math.Exp(-0.2 * x)), hour, 1e-12);
        Assert.Equal(3.5 * (1 - Math.Exp(-x)), taught, 1e-12);
        Assert.Equal(2.0 * (1 - Math.Exp(-x)), strong, 1e-12);
    }

    [Fact]
    public void ATopicWithoutItsBasisIsLearnedSlowly()
    {
        double x = 0.2 * _exam.Breadth[1] / 2.5;
        Assert.Equal(3.5 * (1 - Math.Exp(-0.4 * x)), GainOf(-1, 1, (0, 1, StudyKind.Teaching)), 1e-12);
    }

    [Fact]
    public void AThirdOfWhatIsLearnedIsForgottenExponentially()
    {
        Learner learner = new Prerequisites().Start(PersonAt(0), _exam);
        learner.Study(2, 0, 1, StudyKind.Teaching);
        double fresh = learner.Gain(0, 2);

        Assert.Equal(fresh * (0.65 + (0.35 * Math.Exp(-1))), learner.Gain(0, 12), 1e-12);
    }

    [Fact]
    public void EachFurtherDayMakesItLastLonger()
    {
        Learner learner = new ExponentialForgetting().Start(PersonAt(0), _exam);
        learner.Study(0, 0, 1, StudyKind.Teaching);
        learner.Study(0, 0, 1, StudyKind.Teaching);
        double fresh = learner.Gain(0, 0);
        Assert.Equal(0.2 * LearningAssumptions.Default.Effective(2 * _exam.Breadth[0]), fresh, 1e-12);
        Assert.Equal(fresh * Math.Exp(-7 / 14.0), learner.Gain(0, 7), 1e-12);

        learner.Study(7, 0, 1, StudyKind.Teaching);
        double again = learner.Gain(0, 7);
        Assert.True(again > fresh * Math.Exp(-7 / 14.0));
        Assert.Equal(again * Math.Exp(-7 / (14 * 1.6)), learner.Gain(0, 14), 1e-12);
    }

    private static Person PersonAt(double ability) => new([.. _exam.Curves.Select(_ => ability)], 0.2);

    private static double GainOf(double ability, int topic, (int Day, double Hours, StudyKind Kind) session)
    {
        Learner learner = new Prerequisites().Start(PersonAt(ability), _exam);
        learner.Study(session.Day, topic, session.Hours, session.Kind);
        return learner.Gain(topic, session.Day);
    }
}
