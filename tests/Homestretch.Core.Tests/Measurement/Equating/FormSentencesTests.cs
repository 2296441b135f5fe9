using Homestretch.Core.Evidence;
using Homestretch.Core.Measurement;
using Homestretch.Core.Measurement.Equating;

namespace Homestretch.Core.Tests.Measurement.Equating;

public class FormSentencesTests
{
    [Theory]
    [InlineData(0.04, null, null, "'diagnostic' counts as 4 points easier than the exam, with the usual doubt about a test: the evidence states it.")]
    [InlineData(-0.01, 0.025, null, "'diagnostic' counts as 1 point harder than the exam, give or take 2.5: the evidence states it.")]
    [InlineData(0.0, 0.02, 52, "'diagnostic' counts as no easier and no harder than the exam, give or take 2: learned from 52 people who took both.")]
    public void What_was_stated_or_learned_is_said_once_for_each_test(double points, double? sd, int? people, string said)
    {
        FormDifference form = FormDifference.OfPoints(points, sd, SampleExams.Large().MeanGuessChance) with { People = people };
        Attempt with = new("Someone", "diagnostic", AttemptKind.Diagnostic, SampleExams.Today, []) { Form = form };
        Attempt again = with with { Name = "Diagnostic" };
        Attempt without = with with { Name = "quiz", Form = null };
        Assert.Equal([said], FormSentences.Of(SampleExams.Large(), [with, again, without]));
        Assert.Equal([said], StandingBasis.Of(SampleExams.Large(), []).For([with]).Forms);
        Assert.Empty(FormSentences.Of(SampleExams.Large(), [without]));
    }
}
